import { expect, test } from "vitest";
import { FIELD, SITE } from "../../support/book/docs.ts";
import { newDatabase } from "../../support/book/postgres.ts";
import { type RunningServer, startServer } from "../../support/server.ts";

async function put({ url }: RunningServer, path: string, doc: object): Promise<number> {
  const response = await fetch(`${url}/api/book/${path}`, {
    method: "PUT",
    body: JSON.stringify({ doc }),
    headers: { "Content-Type": "application/json" },
  });
  return response.status;
}

test("DATABASE_URL: a server keeps a field in PostgreSQL, and the next one reads it there", {
  timeout: 90_000,
}, async () => {
  const DATABASE_URL = await newDatabase();
  const first = await startServer({ DATABASE_URL });
  try {
    expect(await (await fetch(`${first.url}/api/book`)).json()).toMatchObject({ engine: "postgresql" });
    expect(await put(first, "sites/home", SITE)).toBe(201);
    expect(await put(first, "fields/creek", FIELD)).toBe(201);
  } finally {
    expect(await first.stop()).toBe(0);
  }
  const second = await startServer({ DATABASE_URL });
  try {
    const found = await (await fetch(`${second.url}/api/book/fields/creek`)).json();
    expect(found).toMatchObject({ id: "creek", revision: 1, doc: FIELD });
  } finally {
    expect(await second.stop()).toBe(0);
  }
});
