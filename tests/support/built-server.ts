import { buildServer } from "../../server/prepare.mjs";

/** The server and the command line that tests start are the built ones, of the sources as they are now. */
export function setup(): void {
  buildServer();
}
