/**
 * A strict reader of iCalendar text (RFC 5545), written from the standard's grammar for these tests and sharing nothing
 * with what writes it: CRLF, 75 octets a line, nesting, escapes, that no UTF-8 sequence is cut, and that a calendar's own
 * properties are registered and stand before its first component.
 */

/** Properties of a calendar itself: RFC 5545 section 3.7, RFC 7986 section 5. */
const CALENDAR_PROPERTIES = [
  ...["CALSCALE", "METHOD", "PRODID", "VERSION"],
  ...["NAME", "DESCRIPTION", "UID", "LAST-MODIFIED", "URL", "CATEGORIES", "REFRESH-INTERVAL", "SOURCE"],
  ...["COLOR", "IMAGE"],
];

export interface ReadProperty {
  readonly name: string;
  readonly params: Readonly<Record<string, string>>;
  readonly value: string;
}

export interface ReadComponent {
  readonly name: string;
  readonly properties: readonly ReadProperty[];
  readonly parts: readonly ReadComponent[];
}

export function readCalendar(text: string): ReadComponent {
  if (!text.endsWith("\r\n")) throw new Error("the last line does not end in CRLF");
  if (/[^\r]\n|\r(?!\n)/.test(text)) throw new Error("a line end that is not CRLF");
  const physical = text.slice(0, -2).split("\r\n");
  for (const line of physical) {
    const octets = new TextEncoder().encode(line);
    if (octets.length > 75) throw new Error(`a line of ${octets.length} octets: ${line}`);
    if (line.includes("\ufffd")) throw new Error(`a cut character: ${line}`);
    // Of the control characters only the tab may stand in a line.
    for (const char of line) {
      const code = char.codePointAt(0) ?? 0;
      if ((code < 32 && code !== 9) || code === 127) throw new Error(`a control character: ${code}`);
    }
  }
  const lines: string[] = [];
  for (const line of physical) {
    if (line.startsWith(" ") || line.startsWith("\t")) {
      if (lines.length === 0) throw new Error("a continuation of nothing");
      lines.push(`${lines.pop()}${line.slice(1)}`);
    } else lines.push(line);
  }
  let at = 0;
  const component = (): ReadComponent => {
    const begin = lines[at++] ?? "";
    if (!begin.startsWith("BEGIN:")) throw new Error(`no component begins at: ${begin}`);
    const name = begin.slice(6);
    const properties: ReadProperty[] = [];
    const parts: ReadComponent[] = [];
    for (;;) {
      const line = lines[at];
      if (line === undefined) throw new Error(`${name} does not end`);
      if (line === `END:${name}`) {
        at++;
        return { name, properties, parts };
      }
      if (line.startsWith("BEGIN:")) parts.push(component());
      else {
        const read = property(line);
        if (name === "VCALENDAR") {
          if (parts.length > 0) throw new Error(`after the first component: ${line}`);
          const isKnown = CALENDAR_PROPERTIES.includes(read.name) || read.name.startsWith("X-");
          if (!isKnown) throw new Error(`no registered property: ${line}`);
        }
        properties.push(read);
        at++;
      }
    }
  };
  const root = component();
  if (at !== lines.length) throw new Error("text after the end");
  return root;
}

function property(line: string): ReadProperty {
  const match = /^([A-Z][A-Z0-9-]*)((?:;[A-Z0-9-]+=(?:"[^"]*"|[^";:,]*))*):(.*)$/s.exec(line);
  if (match === null) throw new Error(`not a property: ${line}`);
  const [, name = "", params = "", value = ""] = match;
  const read: Record<string, string> = {};
  for (const [, key = "", quoted, plain] of params.matchAll(/;([A-Z0-9-]+)=(?:"([^"]*)"|([^";:,]*))/g)) {
    read[key] = quoted ?? plain ?? "";
  }
  return { name, params: read, value };
}

export function fieldOf(part: ReadComponent, name: string): string {
  const found = part.properties.filter((one) => one.name === name);
  if (found.length !== 1) throw new Error(`${part.name} has ${found.length} of ${name}, must have 1`);
  return found[0]?.value ?? "";
}

/** TEXT with its escapes undone; a stray escape or separator is refused. */
export function textOf(part: ReadComponent, name: string): string {
  const raw = fieldOf(part, name);
  if (/(^|[^\\])(\\\\)*[;,]/.test(raw)) throw new Error(`an unescaped separator: ${raw}`);
  return raw.replaceAll(/\\(.)/g, (_, char: string) => {
    if (char === "n" || char === "N") return "\n";
    if (!"\\;,".includes(char)) throw new Error(`an unknown escape: \\${char}`);
    return char;
  });
}
