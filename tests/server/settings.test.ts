import { expect, test } from "vitest";
import { readSettings } from "../../server/settings.ts";

const KEY = "a-key-of-sixteen-or-more";

test("nothing set: loopback, the usual port, no key", () => {
  expect(readSettings({})).toEqual({ ok: true, value: { host: "127.0.0.1", port: 8787, accessKey: null } });
  expect(readSettings({ PORT: "", HOST: "", SWATHCLOCK_KEY: "" })).toEqual(readSettings({}));
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

test("another machine's reach needs a key of at least 16 characters", () => {
  for (const host of ["0.0.0.0", "::", "192.0.2.7", "farm.example"]) {
    const open = readSettings({ HOST: host });
    expect(open.ok ? [] : open.issues.map(({ code }) => code)).toEqual(["key-needed"]);
    expect(readSettings({ HOST: host, SWATHCLOCK_KEY: "short" }).ok).toBe(false);
    expect(readSettings({ HOST: host, SWATHCLOCK_KEY: KEY }).ok).toBe(true);
  }
  for (const host of ["127.0.0.1", "::1", "localhost"]) expect(readSettings({ HOST: host }).ok).toBe(true);
});

test("a key that a header cannot carry is refused", () => {
  expect(readSettings({ SWATHCLOCK_KEY: "sixteen characters with spaces" }).ok).toBe(false);
});
