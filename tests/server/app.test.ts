import { describe, expect, test, vi } from "vitest";
import { BOOK_METHODS } from "../../server/routes/book.ts";
import { errorSchema } from "../../server/schemas/error.ts";
import { modelAnswer } from "../../server/schemas/model.ts";
import { theModel } from "../../server/the-model.ts";
import { fakeApp, post, SILENT_MODEL, SMALL_ANSWER } from "../support/app.ts";
import { exampleDrydown } from "../support/requests.ts";

const SITE = "latitude=44.3&longitude=-98.2&elevationM=400&timeZone=America/Chicago&windHeightM=2";

async function errorOf(response: Response) {
  return errorSchema.parse(await response.json());
}

describe("a request that cannot be read", () => {
  test.each([
    ["{", "invalid-json", "invalid-json"],
    ["", "invalid-request", "empty"],
    ['{"__proto__":{"admin":true}}', "invalid-request", "forbidden-key"],
    ["[]", "invalid-request", "wrong-type"],
    ["null", "invalid-request", "wrong-type"],
  ])("%j gives 400 %s with the issue %s", async (body, error, code) => {
    const response = await post(fakeApp(), "/api/drydown", body);
    expect(response.status).toBe(400);
    const problem = await errorOf(response);
    expect(problem.error).toBe(error);
    expect(problem.issues[0]?.code).toBe(code);
  });

  test("the model's own refusals come back as issues too", async () => {
    const problem = await errorOf(await post(fakeApp(), "/api/drydown", exampleDrydown()));
    expect(problem.issues).toEqual([{ path: "", code: "fake", message: "a fake" }]);
  });

  test("the content type does not matter, what is in the body does", async () => {
    const model = { ...SILENT_MODEL, drydown: () => ({ ok: true as const, value: SMALL_ANSWER }) };
    const headers = { "content-type": "text/plain" };
    expect((await post(fakeApp({ model }), "/api/drydown", exampleDrydown(), headers)).status).toBe(200);
  });
});

describe("a body over the limit is refused with the limit named", () => {
  test("by its announced length", async () => {
    const headers = { "content-length": String(500 * 1024 * 1024) };
    const response = await post(fakeApp(), "/api/drydown", "{}", headers);
    expect(response.status).toBe(413);
    expect((await errorOf(response)).message).toBe(
      "the body: got 524288000 bytes, must be at most 16 MB (16777216 bytes)",
    );
  });

  test("by counting a stream that announces nothing, without taking it all in", async () => {
    let sentMb = 0;
    const body = new ReadableStream<Uint8Array>({
      pull(controller) {
        sentMb += 1;
        if (sentMb > 500) controller.close();
        else controller.enqueue(new Uint8Array(1024 * 1024).fill(32));
      },
    });
    const init = { method: "POST", body, duplex: "half", headers: { "transfer-encoding": "chunked" } };
    const response = await fakeApp().request(new Request("http://localhost/api/drydown", init));
    expect(response.status).toBe(413);
    expect(sentMb).toBeLessThan(30);
  });

  test("a file of weather may be larger: 64 MB", async () => {
    const headers = { "content-type": "text/csv", "content-length": String(65 * 1024 * 1024) };
    const response = await post(fakeApp(), `/api/weather/check?${SITE}`, "a", headers);
    expect(response.status).toBe(413);
    expect((await errorOf(response)).message).toContain("at most 64 MB");
  });
});

describe("addresses", () => {
  test("an unknown one under /api is JSON with the known ones", async () => {
    const response = await fakeApp().request("/api/nothing");
    expect(response.status).toBe(404);
    expect((await errorOf(response)).message).toContain("/api/windows");
  });

  test.each([
    ["/api/drydown", "GET", "POST"],
    ["/api/samples", "POST", "GET, HEAD"],
    ["/openapi.json", "DELETE", "GET, HEAD"],
  ])("%s does not take %s, and says what it takes", async (path, method, allow) => {
    const response = await fakeApp().request(path, { method });
    expect(response.status).toBe(405);
    expect(response.headers.get("allow")).toBe(allow);
    expect((await errorOf(response)).error).toBe("method-not-allowed");
  });

  test("health says the model's version", async () => {
    const response = await fakeApp({ uptimeS: () => 12.34 }).request("/healthz");
    expect(await response.json()).toEqual({ status: "ok", modelVersion: "fake", uptimeS: 12.3 });
  });

  test("what breaks inside stays inside", async () => {
    const log = vi.spyOn(console, "error").mockImplementation(() => {});
    const model = {
      ...SILENT_MODEL,
      drydown: () => {
        throw new Error("secret detail");
      },
    };
    const response = await post(fakeApp({ model }), "/api/drydown", exampleDrydown());
    expect(response.status).toBe(500);
    const text = await response.text();
    expect(text).not.toContain("secret");
    expect(JSON.parse(text).error).toBe("internal");
    expect(log).toHaveBeenCalledOnce();
    log.mockRestore();
  });

  test("headers: own sources only, no sniffing, no framing", async () => {
    const { headers } = await fakeApp().request("/healthz");
    expect(headers.get("content-security-policy")).toContain("default-src 'self'");
    expect(headers.get("content-security-policy")).toContain("frame-ancestors 'none'");
    expect(headers.get("x-content-type-options")).toBe("nosniff");
    expect(headers.get("cache-control")).toBe("no-cache");
  });
});

describe("a file of weather", () => {
  test("as text/csv with its place in the query", async () => {
    const response = await post(fakeApp(), `/api/weather/check?${SITE}`, "a\nb", {
      "content-type": "text/csv",
    });
    expect(response.status).toBe(200);
    expect(await response.json()).toMatchObject({ counts: { rows: 2 } });
  });

  test("each part of the place that lacks or lies outside is named", async () => {
    const path = "/api/weather/check?latitude=444&timeZone=America/Chicago&windHeightM=two";
    const problem = await errorOf(await post(fakeApp(), path, "a", { "content-type": "text/csv" }));
    expect(problem.issues.map(({ path, code }) => `${path} ${code}`).sort()).toEqual([
      "elevationM missing",
      "latitude out-of-range",
      "longitude missing",
      "windHeightM wrong-type",
    ]);
  });

  test("as a form with file and mapping", async () => {
    const form = new FormData();
    form.set("file", new File(["a\nb\nc"], "weather.csv", { type: "text/csv" }));
    const site = { latitude: 44.3, longitude: -98.2, elevationM: 400, timeZone: "America/Chicago" };
    form.set("mapping", JSON.stringify({ site, windHeightM: 2 }));
    const response = await fakeApp().request("/api/weather/check", { method: "POST", body: form });
    expect(await response.json()).toMatchObject({ counts: { rows: 3 } });
  });

  test("a form without its parts, and one with a broken mapping, are told what lacks", async () => {
    const empty = await fakeApp().request("/api/weather/check", { method: "POST", body: new FormData() });
    expect((await errorOf(empty)).issues.map(({ path }) => path)).toEqual(["file", "mapping"]);
    const form = new FormData();
    form.set("file", new File(["a"], "weather.csv"));
    form.set("mapping", '{"site":{"latitude":1},"windHeightM":2}');
    const broken = await fakeApp().request("/api/weather/check", { method: "POST", body: form });
    expect((await errorOf(broken)).issues.map(({ path }) => path)).toContain("mapping.site.longitude");
  });

  test("another encoding is read and told, another kind of body is refused by name", async () => {
    const latin1 = await fakeApp({ model: theModel }).request(`/api/weather/check?${SITE}`, {
      method: "POST",
      body: Uint8Array.from(
        [..."Time,Temp (", 0xb0, ..."C)\n1,2\n"].map((one) =>
          typeof one === "string" ? one.charCodeAt(0) : one,
        ),
      ),
      headers: { "content-type": "text/csv" },
    });
    expect(latin1.status).toBe(200);
    const { problems } = await latin1.json();
    expect(problems.map(({ code }: { code: string }) => code)).toContain("encoding");
    const json = await post(fakeApp(), `/api/weather/check?${SITE}`, "{}");
    expect((await errorOf(json)).issues[0]?.path).toBe("content-type");
  });

  test("the template is a file to download", async () => {
    const response = await fakeApp().request("/api/template.csv");
    expect(response.headers.get("content-type")).toContain("text/csv");
    expect(response.headers.get("content-disposition")).toContain("attachment");
  });
});

describe("the description of the API", () => {
  test("/openapi.json names every address, and every reference in it leads somewhere", async () => {
    const text = await (await fakeApp().request("/openapi.json")).text();
    const document = JSON.parse(text);
    expect(document.openapi).toBe("3.1.0");
    expect(
      Object.keys(document.paths)
        .filter((path) => !Object.hasOwn(BOOK_METHODS, path))
        .sort(),
    ).toEqual([
      "/api/archive",
      "/api/crew-plan",
      "/api/crew-plan/calendar",
      "/api/crew-plan/csv",
      "/api/drydown",
      "/api/feed-check",
      "/api/forecast",
      "/api/model",
      "/api/record",
      "/api/samples",
      "/api/session",
      "/api/template.csv",
      "/api/weather/check",
      "/api/windows",
      "/healthz",
    ]);
    for (const [path, methods] of Object.entries(BOOK_METHODS)) {
      expect([
        path,
        Object.keys(document.paths[path] ?? {})
          .map((method) => method.toUpperCase())
          .sort(),
      ]).toEqual([path, [...methods].sort()]);
    }
    // Keys: how they are shown, and the answers of those who have none.
    expect(Object.keys(document.components.securitySchemes)).toEqual([
      "accessKey",
      "session",
      "calendarToken",
    ]);
    const { get, delete: remove } = document.paths["/api/book/fields/{id}"];
    expect(get.security).toEqual([{ accessKey: [] }, { session: [] }, {}]);
    expect(Object.keys(get.responses)).toEqual(["200", "400", "401", "404", "429", "503"]);
    expect(Object.keys(remove.responses)).toEqual(expect.arrayContaining(["401", "403", "409", "429"]));
    expect(remove.responses).not.toHaveProperty("413");
    expect(document.paths["/api/book/due.ics"].get.security).toContainEqual({ calendarToken: [] });
    const references = [...text.matchAll(/"\$ref":"#\/components\/schemas\/([^"]+)"/g)].map(
      ([, name]) => name,
    );
    expect(references.length).toBeGreaterThan(5);
    for (const name of references) expect(document.components.schemas).toHaveProperty(name ?? "");
    const swath = document.components.schemas.Swath;
    expect(swath.properties.dryMatterTHa).toMatchObject({ exclusiveMinimum: 0, maximum: 30 });
    expect(swath.required).not.toContain("freeWaterMm");
  });

  test("/api/model gives every coefficient with unit, origin and source", async () => {
    const answer = modelAnswer.parse(await (await fakeApp().request("/api/model")).json());
    expect(answer.crops.length).toBe(12);
    expect(Object.keys(answer.coefficients).length).toBeGreaterThan(40);
    for (const { bandWb } of answer.bands) expect(bandWb[0]).toBeLessThan(bandWb[1]);
  });
});
