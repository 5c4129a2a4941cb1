import { describe, expect, test } from "vitest";
import { fakeApp } from "../support/app.ts";

/** Serves three files of a built page, as the file server of the page does. */
const app = fakeApp({
  page: async (c, next) => {
    const types: Readonly<Record<string, string>> = {
      "/": "text/html",
      "/sw.js": "text/javascript",
      "/manifest.webmanifest": "application/manifest+json",
      "/assets/index-Dfun4Ets.js": "text/javascript",
      "/assets/solver-worker-DTu_vMam.js": "text/javascript",
    };
    const type = types[c.req.path];
    return type === undefined ? next() : c.body("x", 200, { "Content-Type": type });
  },
});

const header = async (path: string, name: string) => (await app.request(path)).headers.get(name);

describe("how long a browser may keep what it gets", () => {
  test("a file with a hash in its name for good", async () => {
    expect(await header("/assets/index-Dfun4Ets.js", "cache-control")).toBe(
      "public, max-age=31536000, immutable",
    );
  });

  test.each(["/", "/sw.js", "/manifest.webmanifest", "/api/samples"])(
    "%s is asked for again each time",
    async (path) => {
      expect(await header(path, "cache-control")).toBe("no-cache");
    },
  );

  test("a hashed file that is not there is not remembered as missing", async () => {
    const response = await app.request("/assets/index-00000000.js");
    expect(response.status).toBe(404);
    expect(response.headers.get("cache-control")).toBe("no-cache");
  });
});

describe("what a page of this server may do", () => {
  test("its own scripts, styles, workers and requests, and nothing inline", async () => {
    const policy = (await header("/", "content-security-policy")) ?? "";
    const directives = new Map(
      policy.split(";").map((part) => {
        const [name = "", ...values] = part.trim().split(/\s+/);
        return [name, values] as const;
      }),
    );
    expect(directives.get("default-src")).toEqual(["'self'"]);
    expect(directives.get("worker-src")).toEqual(["'self'"]);
    expect(directives.get("object-src")).toEqual(["'none'"]);
    expect(directives.get("base-uri")).toEqual(["'none'"]);
    expect(directives.get("frame-ancestors")).toEqual(["'none'"]);
    expect(directives.get("form-action")).toEqual(["'self'"]);
    // Whatever is not named falls back to the own server; nothing may widen that.
    const widening = [...directives].flatMap(([name, values]) =>
      values.filter((value) => /unsafe|\*|https?:/.test(value)).map((value) => `${name} ${value}`),
    );
    expect(widening).toEqual([]);
  });

  test("the engine of the crew plan's proof may compile itself, and no other script may", async () => {
    const policies = await Promise.all(
      ["/assets/solver-worker-DTu_vMam.js", "/assets/index-Dfun4Ets.js", "/"].map((path) =>
        header(path, "content-security-policy"),
      ),
    );
    expect(policies[0]).toBe("default-src 'self'; script-src 'self' 'wasm-unsafe-eval'");
    expect(policies.slice(1).filter((policy) => policy?.includes("unsafe"))).toEqual([]);
  });

  test("the place is asked for, nothing else of the device is", async () => {
    const policy = (await header("/", "permissions-policy")) ?? "";
    expect(policy).toContain("geolocation=(self)");
    expect(policy).toMatch(/camera=\(\)/);
  });
});
