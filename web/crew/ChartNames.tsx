import { unitsKept } from "../format/words.ts";
import { type CrewChart, HEAD_PX } from "./crew-chart.ts";

interface NamesProps {
  readonly chart: CrewChart;
  readonly home: (fieldId: string) => string;
}

/** The names of fields, machines and people, that stand still while the calendar is scrolled. */
export function ChartNames({ chart, home }: NamesProps) {
  return (
    <div class="crew-names" aria-hidden="true" style={{ height: `${chart.heightPx}px` }}>
      <span class="crew-head-name" style={{ top: `${HEAD_PX - 26}px` }}>
        Fields
      </span>
      {chart.fields.map(({ id, name, y }) => (
        <span key={id} class="crew-name" style={{ top: `${y + 4}px` }}>
          <b>{name}</b>
          <small>{unitsKept(home(id))}</small>
        </span>
      ))}
      <span class="crew-head-name" style={{ top: `${chart.machinesY + 6}px` }}>
        Machines
      </span>
      {chart.machines.map(({ id, name, y, heightPx, gone }) => (
        <span key={id} class="crew-name" style={{ top: `${y + (heightPx - (gone ? 30 : 18)) / 2}px` }}>
          <b>{name}</b>
          {gone ? <small>not in the list</small> : null}
        </span>
      ))}
      <span class="crew-head-name" style={{ top: `${chart.people.y - 24}px` }}>
        People
      </span>
      <span class="crew-name" style={{ top: `${chart.people.y}px` }}>
        {chart.people.idle.length === 0 ? null : (
          <small class="crew-idle">No work: {chart.people.idle.join(", ")}</small>
        )}
      </span>
    </div>
  );
}
