import type { TargetedPointerEvent } from "preact";
import { useRef } from "preact/hooks";
import { HOUR_MS } from "../../model/weather/clock.ts";
import { shortDayClockText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import type { PlotAxes } from "./CoursePlot.tsx";
import type { CourseMark, CoursePicture } from "./course-picture.ts";
import type { MovedPass } from "./moved-pass.ts";
import { toldMs } from "./told-ms.ts";

export interface Pass extends CourseMark {
  readonly kind: "ted" | "rake";
  readonly key: string;
}

/** A pass on its way: where it would lie, or why it cannot. */
export interface Dragged {
  readonly pass: Pass;
  readonly toMs: number;
  readonly moved: MovedPass;
}

const NAMES = { ted: "Ted", rake: "Rake" } as const;
const DOING = { ted: "tedding", rake: "raking" } as const;
/** Between the stroke of a pass on its way and its words, px. */
const GHOST_AIR_PX = 6;
/** A pointer that moves less than this only touches, px. */
const LEAST_DRAG_PX = 4;

/** The passes of the picture that can be moved in time: not those of a crop that is in by then. */
export function passesOf({ marks }: CoursePicture): Pass[] {
  const count = { ted: 0, rake: 0 };
  return marks.flatMap((mark) => {
    const { kind } = mark;
    if ((kind !== "ted" && kind !== "rake") || mark.gone) return [];
    count[kind] += 1;
    return [{ ...mark, kind, key: `${kind} ${count[kind]}` }];
  });
}

export interface PassesProps {
  readonly passes: readonly Pass[];
  readonly manner: Manner;
  readonly tryMove: (pass: Pass, toMs: number) => MovedPass;
  readonly onDrag: (dragged: Dragged | null) => void;
  /** The pass is put there, or stays and why is told. */
  readonly onDrop: (pass: Pass, moved: MovedPass) => void;
}

/** Handles over the marks: pulled by a pointer, or moved by an hour with the arrow keys. */
export function PassHandles({
  passes,
  picture,
  axes,
  dragged,
  ghostText,
  manner,
  tryMove,
  onDrag,
  onDrop,
}: PassesProps & {
  readonly picture: CoursePicture;
  readonly axes: PlotAxes;
  readonly dragged: Dragged | null;
  /** What stands at the place it would lie at. */
  readonly ghostText: (dragged: Dragged) => string;
}) {
  const held = useRef<{ readonly pass: Pass; readonly fromPx: number; dragged: Dragged | null } | null>(null);
  const follow = (event: TargetedPointerEvent<HTMLButtonElement>) => {
    const hold = held.current;
    if (!hold) return;
    const shiftPx = event.clientX - hold.fromPx;
    if (hold.dragged === null && Math.abs(shiftPx) < LEAST_DRAG_PX) return;
    const toMs = hold.pass.atMs + (axes.hoursAt(shiftPx) - axes.hoursAt(0)) * HOUR_MS;
    hold.dragged = { pass: hold.pass, toMs, moved: tryMove(hold.pass, toMs) };
    onDrag(hold.dragged);
  };
  const letGo = (drop: boolean) => {
    const hold = held.current;
    held.current = null;
    onDrag(null);
    if (drop && hold?.dragged) onDrop(hold.pass, hold.dragged.moved);
  };
  const ghostMs = dragged === null ? null : dragged.moved.ok ? dragged.moved.atMs : dragged.toMs;
  const ghostX =
    ghostMs === null
      ? 0
      : Math.min(axes.right, Math.max(axes.left, axes.x((ghostMs - picture.fromMs) / HOUR_MS)));
  // On the side that has room; where even that is little the words break.
  const leftward = ghostX > (axes.left + axes.right) / 2;
  const roomPx = (leftward ? ghostX - axes.left : axes.right - ghostX) - GHOST_AIR_PX;
  return (
    <>
      {passes.map((pass) => (
        <button
          key={pass.key}
          type="button"
          class="pass-handle"
          data-pass={pass.kind}
          aria-label={`${NAMES[pass.kind]} ${shortDayClockText(toldMs(pass.atMs), manner)}: left or right arrow moves it by an hour`}
          style={{ left: `${axes.x(pass.x)}px`, top: `${axes.y(pass.y)}px` }}
          onPointerDown={(event) => {
            if (event.button !== 0) return;
            event.currentTarget.setPointerCapture(event.pointerId);
            held.current = { pass, fromPx: event.clientX, dragged: null };
          }}
          onPointerMove={follow}
          onPointerUp={() => letGo(true)}
          onPointerCancel={() => letGo(false)}
          onKeyDown={(event) => {
            if (event.key === "Escape") letGo(false);
            const hours = event.key === "ArrowLeft" ? -1 : event.key === "ArrowRight" ? 1 : 0;
            if (hours === 0) return;
            event.preventDefault();
            onDrop(pass, tryMove(pass, pass.atMs + hours * HOUR_MS));
          }}
        >
          <svg width={30} height={16} aria-hidden="true">
            <path d="M6 3L1 8L6 13M24 3L29 8L24 13" />
          </svg>
        </button>
      ))}
      {ghostMs !== null && dragged && (
        <div
          class={dragged.moved.ok ? "pass-ghost" : "pass-ghost impossible"}
          style={{
            left: `${ghostX}px`,
            top: `${axes.top}px`,
            height: `${axes.bottom - axes.top}px`,
          }}
        >
          <span class={leftward ? "leftward" : undefined} style={{ maxWidth: `${roomPx}px` }}>
            {ghostText(dragged)}
          </span>
        </div>
      )}
    </>
  );
}

/** The same passes as a list with a button each way, for whom a drag is not. */
export function PassList({ passes, manner, tryMove, onDrop }: Omit<PassesProps, "onDrag">) {
  return (
    <ul class="passes" aria-label="Passes of this cut">
      {passes.map((pass) => (
        <li key={pass.key}>
          <span class="pass-name">
            {NAMES[pass.kind]} {shortDayClockText(toldMs(pass.atMs), manner)}
          </span>
          {([-1, 1] as const).map((hours) => (
            <button
              key={hours}
              type="button"
              onClick={() => onDrop(pass, tryMove(pass, pass.atMs + hours * HOUR_MS))}
            >
              {hours < 0 ? "Earlier" : "Later"}
              <span class="hidden"> by an hour: {DOING[pass.kind]}</span>
            </button>
          ))}
        </li>
      ))}
    </ul>
  );
}
