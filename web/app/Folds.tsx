import { useMemo } from "preact/hooks";
import { Issued } from "../book/Issued.tsx";
import { Waiting } from "../book/Waiting.tsx";
import { lazyFold } from "../fold/lazy-fold.tsx";
import { type Manner, yearSaid } from "../format/manner.ts";
import type { Choice } from "../state/choice.ts";
import type { Picture, State } from "../state/state.ts";
import type { AskForecast } from "../weather/use-forecast.ts";
import type { Dispatch, Tries } from "./use-model.ts";

/** What a folded section may need of the page; picture and choice are null while there is no answer. */
export interface FoldsProps {
  readonly state: State;
  readonly picture: Picture | null;
  readonly choice: Choice | null;
  readonly manner: Manner;
  readonly dispatch: Dispatch;
  readonly tries: Tries;
}

const Feed = lazyFold({
  class: "feed",
  summary: "May it be fed? Nitrate, prussic acid, sampling",
  load: () => import("../feed/FeedCheck.tsx").then((module) => module.FeedCheck),
});

const Routes = lazyFold({
  class: "feed",
  summary: "Routes side by side: losses, work, money",
  load: () => import("../routes/RoutesSide.tsx").then((module) => module.RoutesSide),
});

const Handling = lazyFold({
  class: "feed",
  summary: "How to store and work it: moisture, film, packing, heat, height, grazing",
  load: () => import("../handling/Handling.tsx").then((module) => module.Handling),
});

const Crew = lazyFold({
  class: "crew-fold",
  summary: "Crew plan: many fields, few machines",
  load: () => import("../crew/CrewPlan.tsx").then((module) => module.CrewPlan),
});

const Reading = lazyFold({
  class: "feed",
  summary: "Take a reading: measure the swath, the course bends",
  load: () => import("../reading/TakeReading.tsx").then((module) => module.TakeReading),
});

const CutRule = lazyFold({
  class: "feed",
  summary: "At which chance to cut: what waiting and rain cost",
  load: () => import("../odds/CutRule.tsx").then((module) => module.CutRule),
});

const RecordOf = lazyFold({
  class: "feed",
  summary: "How right it was: the record",
  load: () => import("../odds/RecordOf.tsx").then((module) => module.RecordOf),
});

const TheBook = lazyFold({
  class: "feed",
  summary: "The book: fields, cuts, lots, readings, what is due",
  load: () => import("../book/part.ts").then((module) => module.Book),
});

/** The folded sections between the answer and the fields: each costs its one line until it is opened. */
export function Folds({ ask, ...props }: FoldsProps & { readonly ask: AskForecast }) {
  const ofAnswer = { ...props, manner: useMemo(() => yearSaid(props.manner), [props.manner]) };
  return (
    <>
      <Waiting />
      <Issued {...props} readings={props.state.readings} />
      <TheBook {...props} ask={ask} />
      <Reading {...props} />
      <CutRule {...ofAnswer} />
      <RecordOf {...props} />
      <Routes {...ofAnswer} />
      <Handling {...ofAnswer} />
      <Crew picture={props.picture} manner={props.manner} />
      <Feed {...props} />
    </>
  );
}
