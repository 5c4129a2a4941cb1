import { CREW_LIMITS } from "../../model/crew/index.ts";
import { SITE_LIMITS } from "../../model/weather/index.ts";
import { Fold } from "../fold/Fold.tsx";
import type { Manner } from "../format/manner.ts";
import type { CrewDraft, SpotOfSite } from "./crew-draft.ts";
import { ItemList } from "./ItemList.tsx";
import { coordinates } from "./item-lines.ts";
import { NumberField } from "./NumberField.tsx";

interface PlacesProps {
  readonly draft: CrewDraft;
  readonly manner: Manner;
  /** Where a place lies of which nothing was typed: that of the weather. */
  readonly spot: SpotOfSite;
  readonly onDraft: (draft: CrewDraft) => void;
}

/** Every two places, each pair once. */
function pairsOf(ids: readonly string[]): readonly (readonly [string, string])[] {
  return ids.flatMap((a, i) => ids.slice(i + 1).map((b) => [a, b] as const));
}

function withoutPair(travelMin: CrewDraft["travelMin"], gone: (pair: readonly string[]) => boolean) {
  return Object.fromEntries(Object.entries(travelMin ?? {}).filter(([key]) => !gone(key.split("|"))));
}

/** Where the fields lie, and how long the machines drive from one place to the next. */
export function Places({ draft, manner, spot, onDraft }: PlacesProps) {
  const { siteNames, spots = {}, travelMin = {} } = draft;
  const sites = Object.entries(siteNames).map(([id, name]) => ({ id, name }));
  const pairs = pairsOf(Object.keys(siteNames));
  const nameOf = (id: string) => siteNames[id] || id;
  const put = (id: string, part: Partial<SpotOfSite>) =>
    onDraft({ ...draft, spots: { ...spots, [id]: { ...spot, ...spots[id], ...part } } });
  const minutesOf = (a: string, b: string) => travelMin[`${a}|${b}`] ?? travelMin[`${b}|${a}`];
  const keep = (items: readonly { readonly id: string; readonly name: string }[]) => {
    const known = (id: string) => items.some((one) => one.id === id);
    onDraft({
      ...draft,
      siteNames: Object.fromEntries(items.map(({ id, name }) => [id, name])),
      spots: Object.fromEntries(Object.entries(spots).filter(([id]) => known(id))),
      travelMin: withoutPair(travelMin, (pair) => !pair.every(known)),
    });
  };
  return (
    <>
      <ItemList
        title="Places"
        kind="place"
        locale={manner.locale}
        items={sites}
        onItems={keep}
        added={{ name: "New place" }}
        line={({ id }) => coordinates(spots[id] ?? spot, manner)}
        needed={({ id }) =>
          draft.fields.some(({ siteId }) => siteId === id) ? "Fields lie there." : undefined
        }
        rest={({ id }) => (
          <>
            <NumberField
              label="Latitude, ° north"
              value={spots[id]?.latitude ?? spot.latitude}
              limit={SITE_LIMITS.latitude}
              manner={manner}
              decimals={4}
              onValue={(latitude) => put(id, { latitude })}
            />
            <NumberField
              label="Longitude, ° east"
              value={spots[id]?.longitude ?? spot.longitude}
              limit={SITE_LIMITS.longitude}
              manner={manner}
              decimals={4}
              onValue={(longitude) => put(id, { longitude })}
            />
          </>
        )}
      />
      {pairs.length === 0 ? null : (
        <Fold
          class="crew-one"
          summary={
            <span class="crew-line">
              <b>Drives between the places</b>
              <small>{pairs.length === 1 ? "1 drive" : `${pairs.length} drives`}</small>
            </span>
          }
        >
          {() => (
            <div class="crew-item">
              {pairs.map(([a, b]) => (
                <NumberField
                  key={`${a}|${b}`}
                  label={`${nameOf(a)} to ${nameOf(b)}, minutes`}
                  value={minutesOf(a, b)}
                  limit={CREW_LIMITS.travelMin}
                  manner={manner}
                  hint="both ways; empty = reckoned from the places"
                  onEmpty={() =>
                    onDraft({
                      ...draft,
                      travelMin: withoutPair(travelMin, (pair) => pair.includes(a) && pair.includes(b)),
                    })
                  }
                  onValue={(minutes) => {
                    const others = withoutPair(travelMin, (pair) => pair.includes(a) && pair.includes(b));
                    onDraft({ ...draft, travelMin: { ...others, [`${a}|${b}`]: minutes } });
                  }}
                />
              ))}
            </div>
          )}
        </Fold>
      )}
    </>
  );
}
