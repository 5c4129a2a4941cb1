/** The bytes of a file as text: UTF-8, or what spreadsheets and older stations write. */

export interface FileText {
  readonly text: string;
  /** Not UTF-8: letters past the English ones are believed to be what this encoding makes of them. */
  readonly encoding: "utf-8" | "utf-16" | "windows-1252";
}

/** Never fails: every byte means something in Windows-1252, where the degree sign of most stations stands. */
export function fileText(bytes: Uint8Array<ArrayBuffer> | ArrayBuffer): FileText {
  const view = new Uint8Array(bytes);
  const [first, second] = view;
  if (first === 0xff && second === 0xfe)
    return { text: new TextDecoder("utf-16le").decode(view), encoding: "utf-16" };
  if (first === 0xfe && second === 0xff)
    return { text: new TextDecoder("utf-16be").decode(view), encoding: "utf-16" };
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(view), encoding: "utf-8" };
  } catch {
    return { text: new TextDecoder("windows-1252").decode(view), encoding: "windows-1252" };
  }
}
