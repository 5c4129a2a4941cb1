import { useState } from "preact/hooks";
import { type CrewPlanAnswer, type CustomerText, feedWarnings } from "../../model/crew/index.ts";
import { inTen } from "../../model/odds/in-ten.ts";
import { SCROLLS } from "../board/BoardTable.tsx";
import { Fold } from "../fold/Fold.tsx";
import { type Manner, numberText } from "../format/manner.ts";
import { PAGE_UNITS, toPage, unitName } from "../format/units.ts";
import { listText, sentenceCase } from "../format/words.ts";
import type { Caution } from "./all-faults.ts";
import { notDryWords } from "./crew-sentences.ts";
import { changeTexts } from "./customer-texts.ts";
import { farmWords } from "./farm-words.ts";
import { helpWords } from "./help-words.ts";
import { LEFT_WORDS, leftState, leftTold, whyLeftWords } from "./left-words.ts";
import { PlanTable } from "./PlanTable.tsx";

interface ToldProps {
  readonly plan: CrewPlanAnswer;
  readonly manner: Manner;
}

const PLAN_WORDS = {
  promised: "As promised before",
  best: "Best",
  robust: "Robust (waits until the crop is ready with a chance of 9 in 10)",
} as const;

/** Of a plan that serves no field. */
const NONE_SERVED = {
  promised: "none of the fields that were promised is finished by it",
  best: "no field can be brought in",
  robust: "no field; nowhere is the crop ready with that chance in an hour that machines and crew can use",
} as const;

interface MessagesProps {
  readonly texts: readonly CustomerText[];
  readonly onGiven: () => void;
}

function Messages({ texts, onGiven }: MessagesProps) {
  const [copied, setCopied] = useState<string | null>(null);
  return (
    <ul class="crew-messages">
      {texts.map(({ customer, text }) => (
        <li key={text}>
          <b>{customer ?? "No customer named"}</b>
          <p class="crew-message">{text}</p>
          <button
            type="button"
            class="aid"
            onClick={() =>
              navigator.clipboard.writeText(text).then(
                () => {
                  setCopied(text);
                  onGiven();
                },
                () => setCopied(null),
              )
            }
          >
            {copied === text ? "Copied" : "Copy"}
          </button>
        </li>
      ))}
    </ul>
  );
}

/** "at risk: it may rain during the baling". */
function riskText(plan: CrewPlanAnswer, { fieldId, atRisk }: CrewPlanAnswer["replay"][number]): string {
  const why = notDryWords(plan, fieldId);
  return [...(atRisk ? ["at risk"] : []), ...(why === null ? [] : [why])].join(": ") || "–";
}

function Chances({ plan, manner }: ToldProps) {
  return (
    <section class="table-scroll" aria-label="Chance of each field" {...SCROLLS}>
      <table class="board-table">
        <caption>
          The plan carried out in every member of the forecast. Loss counts all from the standing crop to
          feeding out
        </caption>
        <thead>
          <tr>
            {[
              "Field",
              "Finished dry",
              "Loss, %",
              `Rain on the swath, ${unitName("rain", manner.units)}`,
              "Risk",
            ].map((head) => (
              <th scope="col" key={head}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {plan.replay.map((told) => (
            <tr key={told.fieldId}>
              <th scope="row">{plan.names.fields[told.fieldId]}</th>
              <td>{told.chanceDry === null ? "no chance told: known weather" : inTen(told.chanceDry)}</td>
              <td>{numberText(told.expectedLossPct, 1, manner)}</td>
              <td>
                {numberText(
                  toPage(told.rainMm, "rain", manner.units),
                  PAGE_UNITS.rain[manner.units].decimals,
                  manner,
                )}
              </td>
              <td>{riskText(plan, told)}</td>
            </tr>
          ))}
          {plan.left.map(({ fieldId }) => (
            <tr key={fieldId}>
              <th scope="row">{plan.names.fields[fieldId]}</th>
              <td colSpan={4}>
                {leftState(plan, fieldId) === "lies"
                  ? sentenceCase(whyLeftWords(plan, fieldId, manner))
                  : `${LEFT_WORDS[leftState(plan, fieldId) ?? "stands"]}. ${sentenceCase(whyLeftWords(plan, fieldId, manner))}.`}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function Compared({ plan, manner }: ToldProps) {
  if (plan.compared === null)
    return (
      <p>
        "Look for a better plan" also makes the robust plan, and compares it with the best and with what was
        promised.
      </p>
    );
  return (
    <ul>
      {plan.compared.map((one) => (
        <li key={one.plan}>
          {PLAN_WORDS[one.plan]}:{" "}
          {one.served === 0
            ? NONE_SERVED[one.plan]
            : `${one.served === 1 ? "1 field" : `${one.served} fields`}; worth ${numberText(one.expected, 0, manner)} on average, ${numberText(one.p10, 0, manner)} in a bad run, ${one.chanceAllDry === null ? "no chance told" : `all dry ${inTen(one.chanceAllDry)}`}`}
          {one.faults > 0
            ? `; ${one.faults === 1 ? "1 work" : `${one.faults} works`} cannot be done any more`
            : ""}
        </li>
      ))}
    </ul>
  );
}

interface PlanToldProps extends ToldProps, MessagesProps {
  /** What speaks against works as they stand. */
  readonly faults: readonly Caution[];
  /** Names of fields that were taken out of the list. */
  readonly goneFields: Readonly<Record<string, string>>;
}

/** What the plan means: risk, the change that helps most, what moved and why, what to tell whom. */
export function PlanTold({ plan, faults, texts, goneFields, manner, onGiven }: PlanToldProps) {
  const risky = plan.replay.filter(({ atRisk }) => atRisk).map(({ fieldId }) => plan.names.fields[fieldId]);
  const left = leftTold(plan, manner);
  // What is to be minded in held work and in the crops is told beside it.
  const ofFeed = feedWarnings(plan);
  const ofWeather = plan.warnings.filter(
    (text) => !ofFeed.includes(text) && !plan.cautions.some((caution) => caution.text === text),
  );
  const changes = changeTexts(plan.changes, { ...goneFields, ...plan.names.fields }, manner);
  return (
    <>
      {plan.left.length > 1 ? (
        <ul class="crew-left-why">
          {left.map(({ fieldIds, names, why }) => (
            <li key={fieldIds.join()}>
              <b>{listText(names)}</b>: {why}.
            </li>
          ))}
        </ul>
      ) : null}
      {ofWeather.length > 0 ? (
        <div class="crew-warned">
          <p>
            <b>Mind the weather:</b>
          </p>
          <ul>
            {ofWeather.map((text) => (
              <li key={text}>{farmWords(text, manner)}</li>
            ))}
          </ul>
        </div>
      ) : null}
      {risky.length > 0 ? (
        <p>
          <b>At risk:</b> {risky.join(", ")}.
        </p>
      ) : null}
      {plan.help === null ? null : (
        <p>
          <b>What would help most:</b> {helpWords(plan.help, manner)}
        </p>
      )}
      {plan.noHelp === undefined ? null : <p>{plan.noHelp}</p>}
      {changes.length > 0 ? (
        <div class="crew-changes">
          <p>
            <b>What moved:</b>
          </p>
          <ul>
            {changes.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </div>
      ) : null}
      <Fold summary="Chance of each field">{() => <Chances plan={plan} manner={manner} />}</Fold>
      <Fold summary="Table of the plan">
        {() => <PlanTable plan={plan} faults={faults} manner={manner} />}
      </Fold>
      <Fold summary="What to tell the customers">{() => <Messages texts={texts} onGiven={onGiven} />}</Fold>
      <Fold summary="Plans compared: promised, best, robust">
        {() => <Compared plan={plan} manner={manner} />}
      </Fold>
      <Fold summary="What is assumed">
        {() => (
          <ul>
            {plan.assumptions.map((text) => (
              <li key={text}>{farmWords(text, manner)}</li>
            ))}
          </ul>
        )}
      </Fold>
    </>
  );
}
