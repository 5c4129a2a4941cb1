import { useMemo, useState } from "preact/hooks";
import type { FeedCheckAnswer } from "../../model/feed/index.ts";
import { ANIMAL_CLASSES, FEED_LIMITS, feedCheck, STRICTEST, TABLE_KEYS } from "../../model/feed/index.ts";
import type { FoldsProps } from "../app/Folds.tsx";
import { BriefButton } from "../brief/BriefButton.tsx";
import { unitName } from "../format/units.ts";
import { listText } from "../format/words.ts";
import { SelectField, TextField } from "../panel/Field.tsx";
import { FeedFields, ION_CHOICES } from "./FeedFields.tsx";
import { FeedResult } from "./FeedResult.tsx";
import {
  EMPTY_FEED,
  emptied,
  exampleFeeds,
  type FeedInputs,
  type FeedTexts,
  FIRST_SAMPLING,
  firstFeedInputs,
  inUnits,
  readFeedInputs,
} from "./feed-inputs.ts";
import { ANIMAL_WORDS, tableName } from "./feed-words.ts";
import { SamplingSheet } from "./SamplingSheet.tsx";
import "./feed.css";

const TABLE_CHOICES = [
  [STRICTEST, "the strictest of all"],
  ...TABLE_KEYS.map((key) => [key, tableName(key)] as const),
] as const;

/** May it be fed? Results of a laboratory on one base, by every published table, with the share a ration can carry. */
export function FeedCheck({ state, picture, choice, manner, dispatch }: FoldsProps) {
  const first = useMemo(() => firstFeedInputs(manner.locale), [manner.locale]);
  const typed = state.feed ?? first;
  const inputs = useMemo(
    () => inUnits(typed, manner.units, manner.locale),
    [typed, manner.units, manner.locale],
  );
  const massUnit = unitName("mass", manner.units);
  const { errors, request } = useMemo(() => readFeedInputs(inputs, manner.locale), [inputs, manner.locale]);
  // The last good answer stays while a field is wrong.
  const [last, setLast] = useState<FeedCheckAnswer | null>(null);
  const answer = useMemo(() => {
    const outcome = request && feedCheck(request);
    return outcome?.ok ? outcome.value : null;
  }, [request]);
  if (answer !== null && answer !== last) setLast(answer);
  const shown = answer ?? last;
  const animal = { class: inputs.animal, pregnant: inputs.pregnant, young: inputs.young };
  const put = (feed: FeedInputs) => dispatch({ kind: "feed", feed });
  const set = (change: Partial<FeedInputs>) => put({ ...inputs, ...change });
  const setFeed = (key: number, change: Partial<FeedTexts>) =>
    set({ feeds: inputs.feeds.map((feed) => (feed.key === key ? { ...feed, ...change } : feed)) });
  const nextKey = 1 + Math.max(0, ...inputs.feeds.map(({ key }) => key));
  const invented = exampleFeeds(inputs).flatMap(
    (key) => inputs.feeds.find((feed) => feed.key === key)?.id ?? [],
  );
  return (
    <div class="feed-check">
      <p>
        A screen, never a clearance: it reads the laboratory's result on one base, sets it beside every
        published table, and counts what a day brings.
      </p>
      {invented.length > 0 ? (
        <p class="feed-invented">
          Invented as an example: {listText(invented)}. Write your own over it, or{" "}
          <button
            type="button"
            class="aid"
            onClick={() => {
              setLast(null);
              put(emptied(inputs));
            }}
          >
            begin with an empty ration
          </button>
        </p>
      ) : null}
      {shown === null ? null : <FeedResult answer={shown} manner={manner} animal={animal} />}
      {answer === null ? (
        <p class="notice">Some fields need mending{shown === null ? "" : "; the last answer stays"}.</p>
      ) : null}
      <div class="feed-form">
        <fieldset class="feed-fields">
          <legend>Animal, water, table</legend>
          <div class="pair">
            <SelectField
              label="Animal"
              value={inputs.animal}
              choices={ANIMAL_CLASSES.map((key) => [key, ANIMAL_WORDS[key]] as const)}
              onChoice={(animal) => set({ animal })}
            />
            <TextField
              label="Weight"
              unit={massUnit}
              value={inputs.kg}
              error={errors.kg}
              onText={(kg) => set({ kg })}
            />
          </div>
          <label class="check">
            <input
              type="checkbox"
              checked={inputs.pregnant}
              onChange={(event) => set({ pregnant: event.currentTarget.checked })}
            />
            Pregnant
          </label>
          <label class="check">
            <input
              type="checkbox"
              checked={inputs.young}
              onChange={(event) => set({ young: event.currentTarget.checked })}
            />
            Young, thin, sick, hungry or new
          </label>
          <SelectField
            label="Read by"
            value={inputs.table}
            choices={TABLE_CHOICES}
            onChoice={(table) => set({ table })}
          />
          <TextField
            label="Diet to stay at"
            unit="ppm NO3-N"
            hint="empty = where that table begins to restrict"
            value={inputs.target}
            error={errors.target}
            onText={(target) => set({ target })}
          />
          <div class="pair">
            <TextField
              label="Water a day"
              unit={manner.units === "us" ? "US gal" : "L"}
              value={inputs.litres}
              error={errors.litres}
              onText={(litres) => set({ litres })}
            />
            <TextField
              label="Its nitrate"
              unit="mg/L"
              value={inputs.water}
              error={errors.water}
              onText={(water) => set({ water })}
            />
          </div>
          <SelectField
            label="Water's nitrate as"
            value={inputs.waterIon}
            choices={ION_CHOICES}
            onChoice={(waterIon) => set({ waterIon })}
          />
        </fieldset>
        {inputs.feeds.map((feed) => (
          <FeedFields
            key={feed.key}
            feed={feed}
            massUnit={massUnit}
            errors={errors}
            wanted={feed.key === inputs.wanted}
            onChange={(change) => setFeed(feed.key, change)}
            onWanted={() => set({ wanted: feed.key })}
            onRemove={
              inputs.feeds.length > 1
                ? () => set({ feeds: inputs.feeds.filter((one) => one !== feed) })
                : undefined
            }
          />
        ))}
      </div>
      {inputs.feeds.length < FEED_LIMITS.feeds.max ? (
        <button
          type="button"
          class="aid"
          onClick={() =>
            set({ feeds: [...inputs.feeds, { ...EMPTY_FEED, key: nextKey, id: `Feed ${nextKey}` }] })
          }
        >
          Add a feed
        </button>
      ) : null}
      <SamplingSheet
        inputs={state.sampling ?? FIRST_SAMPLING}
        manner={manner}
        onInputs={(sampling) => dispatch({ kind: "sampling", sampling })}
      />
      <BriefButton state={state} picture={picture} choice={choice} manner={manner} />
    </div>
  );
}
