import type { OpenAPIHono } from "@hono/zod-openapi";
import { COOKIE } from "./access.ts";

/** Who may ask, in the description of the API: the same for all addresses, so it is said in one place. */

const SCHEMES = {
  accessKey: {
    type: "http",
    scheme: "bearer",
    description: "A key of SWATHCLOCK_KEYS; a server without keys speaks to its own machine and needs none",
  },
  session: {
    type: "apiKey",
    in: "cookie",
    name: COOKIE,
    description: "HttpOnly, of POST /api/session",
  },
  calendarToken: {
    type: "apiKey",
    in: "query",
    name: "token",
    description: "Of GET /api/session, for a calendar program",
  },
} as const;

const ERROR = { "application/json": { schema: { $ref: "#/components/schemas/Error" } } };
const REFUSALS = {
  401: { description: "Needs an access key, or the one shown is not the right one", content: ERROR },
  403: {
    description: "The key may look and not change, or a page of another site asks",
    content: ERROR,
  },
  429: {
    description: "Too many wrong keys from this address: wait as Retry-After says",
    headers: { "Retry-After": { description: "s", schema: { type: "integer" } } },
    content: ERROR,
  },
} as const;

const METHODS = ["get", "post", "put", "patch", "delete"] as const;

type Config = Parameters<OpenAPIHono["getOpenAPI31Document"]>[0];
type Described = ReturnType<OpenAPIHono["getOpenAPI31Document"]>;
type Operation = NonNullable<NonNullable<Described["paths"]>[string]["get"]>;
type Answers = NonNullable<Operation["responses"]>;

function withAccess(path: string, method: string, operation: Operation, keysNeeded: boolean): Operation {
  if (!path.startsWith("/api/") || path === "/api/session") return operation;
  const { 403: forbidden, ...always } = REFUSALS;
  const refusals = method === "get" ? always : { ...always, 403: forbidden };
  const ways = [
    { accessKey: [] },
    { session: [] },
    ...(path.endsWith(".ics") && method === "get" ? [{ calendarToken: [] }] : []),
    // Optional: an empty one among them says so.
    ...(keysNeeded ? [] : [{}]),
  ];
  return {
    ...operation,
    security: ways,
    responses: { ...refusals, ...operation.responses } as Answers,
  };
}

/** The description of the API with the keys that each address takes and the answers of those who have none. */
export function describedWithAccess(app: OpenAPIHono, config: Config, keysNeeded: boolean): Described {
  const document = app.getOpenAPI31Document(config);
  const paths = Object.entries(document.paths ?? {}).map(([path, item]) => {
    const operations = METHODS.flatMap((method) => {
      const operation = item[method];
      return operation === undefined
        ? []
        : [[method, withAccess(path, method, operation, keysNeeded)] as const];
    });
    return [path, { ...item, ...Object.fromEntries(operations) }] as const;
  });
  return {
    ...document,
    paths: Object.fromEntries(paths),
    components: {
      ...document.components,
      securitySchemes: { ...document.components?.securitySchemes, ...SCHEMES },
    },
  };
}
