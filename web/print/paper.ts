/** Folds whose inside belongs on paper; tables have sheets of their own, the reasons behind a caution stay one tap below it. */
const FOLDS = "details.how, details.answer-more";

let opened: HTMLDetailsElement[] = [];

/** Lays the charts out for paper and opens the folds, so that what measures itself measures the paper. */
function toPaper(): void {
  document.documentElement.classList.add("on-paper");
  const closed = [...document.querySelectorAll<HTMLDetailsElement>(FOLDS)].filter(({ open }) => !open);
  for (const fold of closed) fold.open = true;
  opened = [...opened, ...closed];
}

function toScreen(): void {
  document.documentElement.classList.remove("on-paper");
  for (const fold of opened) fold.open = false;
  opened = [];
}

/** Watches for the browser's own print command. To be called before the page is drawn: its listeners come first. */
export function watchPrint(): void {
  addEventListener("beforeprint", toPaper);
  addEventListener("afterprint", toScreen);
}

export const frame = () => new Promise<void>((resolve) => requestAnimationFrame(() => resolve()));
/** Charts follow their new width, and tables their new state, within this. */
const SETTLE_MS = 150;

/** Has the browser print; false where it does not print at all: then nothing will tell that it is done. */
export function hasPrinted(): boolean {
  let heard = false;
  addEventListener(
    "beforeprint",
    () => {
      heard = true;
    },
    { once: true },
  );
  print();
  return heard;
}

/** What is still drawn without its chances: the board, the bands of the course. */
const UNTOLD = 'main[data-odds="none"]:not([data-picture="0"]), .course[data-bands="none"]';
/** Whoever waits longer than this prints without them, and the paper says so. */
const PATIENCE_MS = 15_000;

/** Until board and course have their chances, or have had time enough. */
export async function chancesDrawn(patienceMs = PATIENCE_MS): Promise<void> {
  const untilMs = performance.now() + patienceMs;
  while (document.querySelector(UNTOLD) !== null && performance.now() < untilMs)
    await new Promise((resolve) => setTimeout(resolve, 50));
}

/** Prints once everything is drawn for the paper. */
export async function printPage(): Promise<void> {
  toPaper();
  await frame();
  await new Promise((resolve) => setTimeout(resolve, SETTLE_MS));
  await frame();
  // The browser tells when it is done, which on some devices is long after this; where it does not print at all, it is now.
  if (!hasPrinted()) toScreen();
}

function quoted(text: string): string {
  return `"${text.replace(/["\\\n\r\f]/g, " ")}"`;
}

/** Whether the browser prints text into the margins of a page. */
export const SETS_MARGINS = "CSSMarginRule" in globalThis && "adoptedStyleSheets" in Document.prototype;

let sheet: CSSStyleSheet | null = null;
let said: readonly [string, string, string] = ["", "", ""];

/** Head and foot as they were set last, for who prints something else between. */
export const marginsSaid = () => said;

/** Head and foot of every page, where the browser can set them; a sheet made by script, as none may stand inline. */
export function setMargins(headLeft: string, headRight: string, footLeft: string): void {
  said = [headLeft, headRight, footLeft];
  const rules = `@page {
    margin: 13mm 12mm;
    @top-left { content: ${quoted(headLeft)}; }
    @top-right { content: ${quoted(headRight)}; }
    @bottom-left { content: ${quoted(footLeft)}; }
    @bottom-right { content: "Page " counter(page) " of " counter(pages); }
  }`;
  if (!SETS_MARGINS) return;
  if (sheet === null) {
    sheet = new CSSStyleSheet();
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  }
  sheet.replaceSync(rules);
}
