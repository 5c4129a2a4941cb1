import { type FeedCheckAnswer, type FeedCheckRequest, feedCheck } from "../../model/feed/index.ts";
import { exampleFeeds, type FeedInputs, inUnits, readFeedInputs } from "../feed/feed-inputs.ts";
import { ANIMAL_WORDS } from "../feed/feed-words.ts";
import { type Manner, quantityText } from "../format/manner.ts";

/** What a printed brief may say of the feed check: never the invented example as if it were somebody's. */
export type FeedBrief =
  /** Nothing was entered, or all that stands there is the example. */
  | { readonly kind: "none" }
  /** Some field is wrong, so there is nothing to be read. */
  | { readonly kind: "mend" }
  | {
      readonly kind: "told";
      readonly request: FeedCheckRequest;
      readonly answer: FeedCheckAnswer;
      /** Feeds among them that are still the example's. */
      readonly invented: readonly string[];
    };

/** @param typed null = the feed check was never touched */
export function feedBrief(typed: FeedInputs | null, manner: Pick<Manner, "units" | "locale">): FeedBrief {
  if (typed === null) return { kind: "none" };
  const inputs = inUnits(typed, manner.units, manner.locale);
  const examples = exampleFeeds(inputs);
  if (examples.length === inputs.feeds.length) return { kind: "none" };
  const { request } = readFeedInputs(inputs, manner.locale);
  const outcome = request && feedCheck(request);
  if (request === null || !outcome?.ok) return { kind: "mend" };
  const invented = inputs.feeds.filter(({ key }) => examples.includes(key)).map(({ id }) => id.trim());
  return { kind: "told", request, answer: outcome.value, invented };
}

/** "beef cow of 600 kg, pregnant". */
export function animalWords({ animal }: FeedCheckRequest, manner: Pick<Manner, "units" | "locale">): string {
  const more = [
    animal.pregnant ? ", pregnant" : "",
    animal.young ? ", young, thin, sick, hungry or new" : "",
  ];
  return `${ANIMAL_WORDS[animal.class]} of ${quantityText(animal.kg, "mass", manner)}${more.join("")}`;
}
