import { type CrewChart, RAIN_Y_PX } from "./crew-chart.ts";

/** The rain that hangs from the head of the chart; pale where most forecasts have it dry. */
export function ChartRain({ rain }: Pick<CrewChart, "rain">) {
  return (
    <g>
      {rain.map(({ x0, x1, lengthPx, seldom }) => (
        <rect
          key={x0}
          class={seldom ? "crew-rain seldom" : "crew-rain"}
          x={x0}
          y={RAIN_Y_PX}
          width={Math.max(1, x1 - x0)}
          height={lengthPx}
        />
      ))}
    </g>
  );
}
