import type { PeopleRow } from "./people-row.ts";

/** Height of the words over the people's bars. */
const PEOPLE_TEXT_PX = 20;

/** How many have work in black against the outline of how many there are; its foot is the row's. */
export function PeopleBars({ people }: { readonly people: PeopleRow }) {
  const { y, heightPx, bars, most } = people;
  const roomPx = heightPx - PEOPLE_TEXT_PX;
  const foot = y + heightPx - 2;
  return (
    <g>
      {bars.map(({ x0, x1, there, busy }) => (
        <g key={x0}>
          <rect class="crew-there" x={x0} y={foot - there * roomPx} width={x1 - x0} height={there * roomPx} />
          <rect class="crew-busy" x={x0} y={foot - busy * roomPx} width={x1 - x0} height={busy * roomPx} />
        </g>
      ))}
      {most.map(({ x0, x1, busy, there }) => (
        <text key={x0} x={(x0 + x1) / 2} y={y + 13} text-anchor="middle">
          {busy === 0 ? `none of ${there} at work` : `at most ${busy} of ${there} at work`}
        </text>
      ))}
    </g>
  );
}
