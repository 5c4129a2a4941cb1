import { bodyLimit } from "hono/body-limit";
import { plainProblem, sendProblem } from "./problem.ts";

const MB = 1024 * 1024;
export const MAX_JSON_BYTES = 16 * MB;
export const MAX_UPLOAD_BYTES = 64 * MB;

/** Refuses a body over the limit: by its announced length before reading, else by counting while it arrives. */
export function limitBody(maxBytes: number) {
  return bodyLimit({
    maxSize: maxBytes,
    onError: (c) => {
      const announced = c.req.header("content-length");
      const mb = maxBytes / MB;
      const got = announced === undefined ? `more than ${mb} MB` : `${announced} bytes`;
      const message = `the body: got ${got}, must be at most ${mb} MB (${maxBytes} bytes)`;
      // The rest of the upload is not read: the connection cannot serve another request.
      c.header("Connection", "close");
      return sendProblem(c, 413, {
        ...plainProblem("too-large", message),
        issues: [{ path: "", code: "too-large", message }],
      });
    },
  });
}
