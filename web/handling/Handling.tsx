import { useMemo, useState } from "preact/hooks";
import { ROUTE_CATALOGUE, ROUTES, type RouteKey } from "../../model/harvest/index.ts";
import type { FoldsProps } from "../app/Folds.tsx";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { Lever } from "../panel/Lever.tsx";
import { readInputs } from "../state/read-inputs.ts";
import { Chopping } from "./Chopping.tsx";
import { CuttingHeight, Tested } from "./CuttingHeight.tsx";
import { StandingDryDown } from "./DryDown.tsx";
import { factsOf } from "./facts.ts";
import { Grazing } from "./Grazing.tsx";
import { HeatingLog } from "./HeatLog.tsx";
import { Moisture } from "./Moisture.tsx";
import { momentsOf, routeOfRow } from "./moments.ts";
import { Preservative } from "./Preservative.tsx";
import { practiceTable } from "./practice.ts";
import { FoldedTable, Warning } from "./Told.tsx";
import { useCourseOf } from "./use-course.ts";
import { useHandling } from "./use-handling.ts";
import { Waits } from "./Waits.tsx";
import { Delay, Film } from "./Wrapping.tsx";
import "./handling.css";

const CHOPPED: readonly RouteKey[] = ["wilted-chop", "direct-chop"];
const BANDED: readonly RouteKey[] = ["dry-hay", "wrapped-bales", "wilted-chop", "direct-chop"];

/** The routes that are picked, that of the chosen row first. */
export function routesShown(
  picked: Readonly<Record<RouteKey, { readonly on: boolean }>>,
  ofRow: RouteKey | null,
): readonly RouteKey[] {
  const on = ROUTES.filter((route) => picked[route].on || route === ofRow);
  return ofRow === null ? on : [ofRow, ...on.filter((route) => route !== ofRow)];
}

/** How a route is worked and stored: the chosen row's own first, the others that are picked beside it. */
export function Handling({ state, picture, choice, manner, dispatch, tries }: FoldsProps) {
  const { inputs, nowMs, past } = state;
  const ofRow = choice?.route?.route ?? null;
  const [looked, setLooked] = useState<{ readonly row: RouteKey | null; readonly route: RouteKey } | null>(
    null,
  );
  const own = useHandling();
  const read = useMemo(() => readInputs(inputs, manner), [inputs, manner]);
  const routes = routesShown(inputs.routes, ofRow);
  // Another row chosen on the board is looked at anew.
  const route = looked && looked.row === ofRow && routes.includes(looked.route) ? looked.route : routes[0];
  const row = picture === null || route === undefined ? null : routeOfRow(picture.answer, choice, route);
  const course = useCourseOf(picture, row, tries);
  if (route === undefined) return <p>No route is ticked: choose one under the field.</p>;
  const moments =
    picture === null ? [] : momentsOf({ request: picture.request, route, row, course, nowMs }, manner);
  const panel = { inputs, read, dispatch, manner };
  const facts = factsOf(inputs, read);
  const about = { own, crop: inputs.crop, inputs, moments, manner };
  return (
    <div class="handling">
      <Lever
        label="Route"
        value={route}
        choices={routes.map((key) => [key, sentenceCase(ROUTE_LABELS[key])] as const)}
        onChoice={(key) => setLooked({ row: ofRow, route: key })}
      />
      <Warning>{ROUTE_CATALOGUE[route].caution}</Warning>
      {BANDED.includes(route) ? <Moisture route={route} {...about} /> : null}
      {route === "direct-chop" ? <StandingDryDown {...panel} /> : null}
      {route === "wrapped-bales" ? (
        <>
          <Delay {...about} />
          <Film {...about} />
        </>
      ) : null}
      {CHOPPED.includes(route) ? <Chopping own={own} manner={manner} /> : null}
      {route === "dry-hay" ? <Preservative {...about} /> : null}
      <section class="handling-topic" aria-label="What was tested">
        <h3>What was tested</h3>
        <Tested {...panel} facts={facts} />
      </section>
      <CuttingHeight {...panel} facts={facts} route={route} routes={routes} past={past} />
      {route === "grazing" ? <Grazing {...panel} facts={facts} /> : null}
      <Waits route={route} crop={inputs.crop} />
      {route === "dry-hay" ? <HeatingLog own={own} nowMs={nowMs} manner={manner} /> : null}
      <FoldedTable
        title="What is commonly done"
        caption="Common practice beside what counts here: it never counts where a stricter value is published"
        heads={["What", "Range", "Label", "Counts here"]}
        rows={practiceTable(inputs.crop, manner)}
      />
      <p class="hint">
        A guide to storing and working, never a clearance to feed: laboratory, veterinarian, product label and
        the local extension service decide.
      </p>
    </div>
  );
}
