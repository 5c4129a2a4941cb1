import { render } from "preact";
import { headAndFoot } from "../print/PrintHead.tsx";
import { frame, hasPrinted, setMargins } from "../print/paper.ts";
import { Brief, type BriefProps } from "./Brief.tsx";

const MM_PX = 96 / 25.4;
/** What both papers have inside their margins, less the rounding of a line: 186 mm of A4's width, 253 mm of Letter's height. */
const ROOM_MM = { width: 186, height: 251 } as const;
/** Type below this share of its size is not read any more: what then does not fit runs on. */
const LEAST_SIZE = 0.5;
const SIZE_STEP = 0.008;
/** Where a sheet has room left its type grows by as much at most. */
const MOST_SIZE = 1.2;

/** Makes a sheet's type as large as fits, and its lines as much longer or shorter. */
function fitToPaper(sheet: HTMLElement): void {
  const inside = sheet.firstElementChild as HTMLElement;
  const roomPx = ROOM_MM.height * MM_PX;
  const heightPx = (size: number) => {
    inside.style.zoom = String(size);
    inside.style.width = `${ROOM_MM.width / size}mm`;
    return sheet.getBoundingClientRect().height;
  };
  // Never by a guess: what is made smaller has longer lines, and how many fewer no formula tells.
  let [fits, tooLarge] = [LEAST_SIZE, MOST_SIZE];
  if (heightPx(tooLarge) <= roomPx) return;
  while (tooLarge - fits > SIZE_STEP) {
    const size = (fits + tooLarge) / 2;
    if (heightPx(size) <= roomPx) fits = size;
    else tooLarge = size;
  }
  heightPx(fits);
}

let running: (() => void) | null = null;

/** Lays the brief out for itself, prints it, and leaves the page as it was. */
export async function printBrief(props: BriefProps): Promise<void> {
  running?.();
  const host = document.createElement("div");
  host.id = "brief";
  host.setAttribute("aria-hidden", "true");
  // First on the page: its patterns are then the ones that its own fills find, as the page's are not drawn on paper.
  document.body.prepend(host);
  render(<Brief {...props} />, host);
  const { classList } = document.documentElement;
  const [headLeft, headRight, footLeft] = headAndFoot(props);
  const end = () => {
    running = null;
    removeEventListener("afterprint", end);
    classList.remove("printing-brief");
    setMargins(headLeft, headRight, footLeft);
    render(null, host);
    host.remove();
  };
  running = end;
  await frame();
  for (const sheet of host.querySelectorAll<HTMLElement>(".brief-sheet")) fitToPaper(sheet);
  if (running !== end) return;
  classList.add("printing-brief");
  setMargins(headLeft.replace("Swathclock", "Swathclock brief"), headRight, footLeft);
  addEventListener("afterprint", end);
  // Where the browser does not print at all there is nothing to wait for.
  if (!hasPrinted()) end();
}
