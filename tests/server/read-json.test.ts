import { expect, test } from "vitest";
import { joinPath, readJson } from "../../server/read-json.ts";
import { readText } from "../../server/read-text.ts";

function codes(text: string) {
  const result = readJson(text);
  return result.ok ? [] : result.issues.map(({ path, code }) => `${code} ${path}`);
}

test("plain JSON passes with its value", () => {
  expect(readJson('{"a":[1,null]}')).toEqual({ ok: true, value: { a: [1, null] } });
});

test.each([
  ["", "empty "],
  [" \n", "empty "],
  ["{", "invalid-json "],
  ['{"swath":{"__proto__":{"x":1}}}', "forbidden-key swath.__proto__"],
  ['{"swath":{"\\u005f_proto__":1}}', "forbidden-key swath.__proto__"],
  ['{"list":[{"constructor":1}]}', "forbidden-key list[0].constructor"],
  ['{"prototype":1}', "forbidden-key prototype"],
])("%s is refused as %s", (text, expected) => {
  expect(codes(text)).toEqual([expected]);
});

test("a forbidden key leaves every other object as it was", () => {
  readJson('{"__proto__":{"polluted":true}}');
  expect("polluted" in {}).toBe(false);
});

test("bottomless nesting, endless lists and heaps of objects are refused without exhausting anything", () => {
  expect(codes("[".repeat(100_000) + "]".repeat(100_000))[0]).toMatch(/^too-deep|^invalid-json/);
  expect(codes(`{"a":[${"1,".repeat(20_000)}1]}`)).toEqual(["too-many a"]);
  expect(codes(`[${"{},".repeat(19_000)}{}]`)).toEqual(["too-many-parts "]);
});

test("paths read as they are written in the error shape", () => {
  expect(joinPath(["weather", "hours", "airTempC", 3])).toBe("weather.hours.airTempC[3]");
  expect(joinPath([])).toBe("");
});

test("bytes that are not UTF-8 are refused by name; a byte-order mark is dropped", () => {
  const latin1 = readText(Uint8Array.from([0x63, 0xb0]), "file");
  expect(latin1.ok ? [] : latin1.issues.map(({ code }) => code)).toEqual(["not-utf-8"]);
  expect(readText(Uint8Array.from([0xef, 0xbb, 0xbf, 0x61]), "file")).toEqual({ ok: true, value: "a" });
});
