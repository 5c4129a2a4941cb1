import type { ChartArea } from "chart.js";
import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { usePaper } from "../print/use-paper.ts";
import { type CourseChart, courseChart, type Scene } from "./course-chart.ts";
import type { CoursePicture } from "./course-picture.ts";
import { type Inks, PRINT_INKS, readInks, watchTheme } from "./inks.ts";

/** What lies where in the plot, px from the picture's upper left corner. */
export interface PlotAxes {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  x(hours: number): number;
  y(pct: number): number;
  /** Hours from the left edge of the plot at a place across. */
  hoursAt(px: number): number;
}

/** The chart's vertical axis ends here, per cent. */
const TOP_PCT = 95;
const FADE_MS = 120;

function axesIn({ left, right, top, bottom }: ChartArea, hoursAcross: number): PlotAxes {
  const perHour = (right - left) / hoursAcross;
  return {
    left,
    right,
    top,
    bottom,
    x: (hours) => left + hours * perHour,
    y: (pct) => bottom - (pct / TOP_PCT) * (bottom - top),
    hoursAt: (px) => (px - left) / perHour,
  };
}

/** The tokens' colours where an element stands, followed through themes; greys while the page is printed. */
function useInks(theme: string | undefined) {
  const ref = useRef<HTMLCanvasElement>(null);
  const [inks, setInks] = useState<Inks | null>(null);
  const printing = usePaper();
  useLayoutEffect(() => {
    const read = () => {
      if (ref.current) setInks(readInks(ref.current));
    };
    read();
    return watchTheme(read);
  }, [theme]);
  return { ref, inks: printing ? PRINT_INKS : inks };
}

/** The last picture laid over the new one and let go within a moment; not at all where motion is not wanted. */
function crossFade(from: HTMLCanvasElement, over: HTMLCanvasElement): void {
  if (matchMedia("(prefers-reduced-motion: reduce)").matches || from.width === 0) return;
  over.width = from.width;
  over.height = from.height;
  over.getContext("2d")?.drawImage(from, 0, 0);
  over.animate([{ opacity: 1 }, { opacity: 0 }], { duration: FADE_MS });
}

/** The course drawn, with what is laid over it; changed in place as what it shows changes. */
export function CoursePlot({
  picture,
  widthPx,
  place,
  parts,
  theme,
  fadeOn,
  children,
}: Omit<Scene, "inks"> & {
  readonly picture: CoursePicture;
  readonly theme: string | undefined;
  /** The picture fades over when this is another one. */
  readonly fadeOn: unknown;
  readonly children: (axes: PlotAxes) => ComponentChildren;
}) {
  const { ref: canvasRef, inks } = useInks(theme);
  const fadeRef = useRef<HTMLCanvasElement>(null);
  const chartRef = useRef<CourseChart | null>(null);
  const sceneRef = useRef<Scene | null>(null);
  const shownRef = useRef<unknown>(fadeOn);
  const [area, setArea] = useState<ChartArea | null>(null);
  const { x0, x1 } = place ?? { x0: 0, x1: 0 };
  const placed = place !== null;
  const measured = widthPx > 0;

  useLayoutEffect(() => {
    const canvas = canvasRef.current;
    if (!canvas || !measured || inks === null) return;
    const scene: Scene = { picture, inks, widthPx, place: placed ? { x0, x1, widthPx } : null, parts };
    sceneRef.current = scene;
    const chart = chartRef.current;
    if (chart === null) {
      chartRef.current = courseChart(canvas, scene, (next) =>
        setArea((now) => {
          const same = now && (["left", "right", "top", "bottom"] as const).every((k) => now[k] === next[k]);
          return same ? now : next;
        }),
      );
      // Canvas text is drawn in whatever type is loaded by then: once more when the page's own has come.
      document.fonts.ready.then(() => {
        if (sceneRef.current) chartRef.current?.show(sceneRef.current);
      });
    } else {
      if (shownRef.current !== fadeOn && fadeRef.current) crossFade(canvas, fadeRef.current);
      chart.show(scene);
    }
    shownRef.current = fadeOn;
  }, [picture, inks, parts, measured, placed, x0, x1, widthPx, fadeOn]);

  useLayoutEffect(
    () => () => {
      sceneRef.current = null;
      chartRef.current?.destroy();
      chartRef.current = null;
    },
    [],
  );
  return (
    <>
      <canvas ref={canvasRef} role="img" aria-label={picture.sentence}>
        {picture.sentence}
      </canvas>
      <div class="course-fade" aria-hidden="true">
        <canvas ref={fadeRef} />
      </div>
      {area && children(axesIn(area, picture.hoursAcross))}
    </>
  );
}
