import { inflateSync } from "node:zlib";

/**
 * The letters of each page of a PDF that Chromium printed, without spaces, in the order in which they were drawn: enough to
 * say what stands on which sheet. Reads what that printer writes and no other PDF: plain objects, fonts with Unicode maps.
 */
export function lettersOfPages(pdf: Buffer): string[] {
  const objects = new Map<string, { readonly head: string; readonly stream: string }>();
  const text = pdf.toString("latin1");
  for (const [, id = "", body = ""] of text.matchAll(/(?:^|\n)(\d+) 0 obj\s([\s\S]*?)\nendobj/g)) {
    const at = body.indexOf("stream\n");
    const head = at < 0 ? body : body.slice(0, at);
    const raw = at < 0 ? "" : body.slice(at + 7, body.lastIndexOf("\nendstream"));
    const stream = head.includes("/FlateDecode")
      ? inflateSync(Buffer.from(raw, "latin1"), { finishFlush: 2 }).toString("latin1")
      : raw;
    objects.set(id, { head, stream });
  }
  const of = (id: string | undefined) => objects.get(id ?? "") ?? { head: "", stream: "" };

  const maps = new Map<string, ReadonlyMap<string, string>>();
  const mapOf = (font: string) => {
    const known = maps.get(font);
    if (known) return known;
    const map = new Map<string, string>();
    const { stream } = of(/\/ToUnicode (\d+) 0 R/.exec(of(font).head)?.[1]);
    const char = (hex: string) => String.fromCodePoint(Number.parseInt(hex, 16));
    for (const [, block = ""] of stream.matchAll(/beginbfchar([\s\S]*?)endbfchar/g))
      for (const [, glyph = "", to = ""] of block.matchAll(/<(\w+)> <(\w+)>/g)) map.set(glyph, char(to));
    for (const [, block = ""] of stream.matchAll(/beginbfrange([\s\S]*?)endbfrange/g))
      for (const [, from = "", to = "", first = ""] of block.matchAll(/<(\w+)> <(\w+)> <(\w{4})>/g))
        for (let i = Number.parseInt(from, 16); i <= Number.parseInt(to, 16); i++)
          map.set(
            i.toString(16).toUpperCase().padStart(from.length, "0"),
            String.fromCodePoint(Number.parseInt(first, 16) + i - Number.parseInt(from, 16)),
          );
    maps.set(font, map);
    return map;
  };

  /** Letters that a stream draws, with those of the forms it calls. */
  const drawn = (head: string, stream: string): string => {
    const own = /\/Resources (\d+) 0 R/.exec(head)?.[1];
    const resources = own === undefined ? head : of(own).head;
    const named = new Map<string, string>();
    for (const [, name = "", id = ""] of resources.matchAll(/\/([A-Z]\w*) (\d+) 0 R/g)) named.set(name, id);
    let font: ReadonlyMap<string, string> = new Map();
    let letters = "";
    for (const [, name, hex, form] of stream.matchAll(/\/(F\d+) [\d.]+ Tf|<(\w+)>|\/(X\d+) Do/g)) {
      if (name !== undefined) font = mapOf(named.get(name) ?? "");
      else if (hex !== undefined) {
        // A font's glyphs are one byte or two.
        const wide = [...font.keys()][0]?.length === 4;
        for (const glyph of hex.match(wide ? /.{4}/g : /../g) ?? [])
          letters += font.get(glyph.toUpperCase()) ?? "";
      } else {
        const called = of(named.get(form ?? ""));
        if (called.head.includes("/Form")) letters += drawn(called.head, called.stream);
      }
    }
    return letters;
  };

  return [...objects.values()]
    .filter(({ head }) => /\/Type \/Page\b(?!s)/.test(head))
    .map(({ head }) => drawn(head, of(/\/Contents (\d+) 0 R/.exec(head)?.[1]).stream).replace(/\s/g, ""));
}
