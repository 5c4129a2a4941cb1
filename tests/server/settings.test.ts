import { expect, test } from "vitest";
import { readSettings } from "../../server/settings.ts";

const KEY = "a-key-of-sixteen-or-more";
const KEYS = `anna:edit:${KEY}, shed:view:another-${KEY}`;

test("nothing set: loopback, the usual port, no key", () => {
  const value = { host: "127.0.0.1", port: 8787, keys: [], trustProxy: false };
  expect(readSettings({})).toEqual({ ok: true, value });
  expect(readSettings({ PORT: "", HOST: "", SWATHCLOCK_HOST: "", SWATHCLOCK_KEYS: "" })).toEqual(
    readSettings({}),
  );
});

test.each(["x", "-1", "80.5", "65536", "1e3", " 80"])(
  "PORT %j is refused with its value and limit",
  (port) => {
    const settings = readSettings({ PORT: port });
    expect(settings.ok ? "" : settings.issues[0]?.message).toBe(
      `PORT: got "${port}", must be a whole number from 0 (any free port) to 65535`,
    );
  },
);

test("another machine's reach needs named keys", () => {
  for (const host of ["0.0.0.0", "::", "192.0.2.7", "farm.example"]) {
    for (const name of ["SWATHCLOCK_HOST", "HOST"]) {
      const open = readSettings({ [name]: host });
      expect(open.ok ? [] : open.issues.map(({ code }) => code)).toEqual(["key-needed"]);
      expect(readSettings({ [name]: host, SWATHCLOCK_KEYS: KEYS })).toMatchObject({
        ok: true,
        value: { host },
      });
    }
  }
  for (const host of ["127.0.0.1", "::1", "localhost"])
    expect(readSettings({ SWATHCLOCK_HOST: host }).ok).toBe(true);
});

test("keys have a name and a role; only their hash is kept", () => {
  const settings = readSettings({ SWATHCLOCK_KEYS: KEYS });
  expect(settings.ok && settings.value.keys.map(({ name, role }) => [name, role])).toEqual([
    ["anna", "edit"],
    ["shed", "view"],
  ]);
  expect(JSON.stringify(settings)).not.toContain(KEY);
});

test.each([
  ["anna:edit:short", "too-short"],
  [KEY, "bad-key"],
  [`anna:admin:${KEY}`, "bad-key"],
  [`anna:edit:${KEY} with spaces`, "bad-key"],
  [`anna:edit:${KEY},anna:view:x${KEY}`, "not-unique"],
  [`anna:edit:${KEY},bert:view:${KEY}`, "not-unique"],
  [" , ", "empty"],
])("keys %j are refused, and no message says one", (text, code) => {
  const settings = readSettings({ SWATHCLOCK_HOST: "0.0.0.0", SWATHCLOCK_KEYS: text });
  expect(settings.ok ? [] : settings.issues.map((issue) => issue.code)).toContain(code);
  expect(JSON.stringify(settings)).not.toContain(KEY);
});

test("the one key of before is not ignored: to go on without it would open what was closed", () => {
  const settings = readSettings({ SWATHCLOCK_KEY: KEY });
  expect(settings.ok ? "" : settings.issues[0]?.message).toContain("SWATHCLOCK_KEYS=me:edit:KEY");
});

test("a proxy is trusted only when told to", () => {
  expect(readSettings({ SWATHCLOCK_TRUST_PROXY: "true" })).toMatchObject({
    ok: true,
    value: { trustProxy: true },
  });
  expect(readSettings({ SWATHCLOCK_TRUST_PROXY: "maybe" }).ok).toBe(false);
});
