import { useId, useState } from "preact/hooks";
import { HEAT_SOURCE } from "../../model/harvest/route-details/index.ts";
import { localDayKey } from "../../model/weather/clock.ts";
import type { Manner } from "../format/manner.ts";
import { unitName } from "../format/units.ts";
import { ErrorText, TextField } from "../panel/Field.tsx";
import type { Typed } from "../state/inputs.ts";
import { shownTyped, typedNow } from "../state/typed.ts";
import { HeatChart } from "./HeatChart.tsx";
import {
  dayWords,
  degreeDaysSentence,
  fireServiceText,
  heatRow,
  heatSentence,
  heatTable,
  logOf,
  needsFireService,
  type ProbeErrors,
  readProbe,
  tempText,
} from "./heat.ts";
import type { Probe } from "./kept.ts";
import { Topic, Warning, WordsTable } from "./Told.tsx";
import type { OwnProps } from "./use-handling.ts";

export interface HeatLogProps extends OwnProps {
  readonly nowMs: number;
  readonly manner: Manner;
}

const NO_ERRORS: ProbeErrors = { day: undefined, temp: undefined };

/** A day and a temperature to be written down; what is wrong stays and is said beside it. */
function TakeProbe({ own, nowMs, manner }: HeatLogProps) {
  const { probes } = own.handling;
  const [day, setDay] = useState(() => localDayKey(nowMs, manner.zone));
  const [typed, setTyped] = useState<Typed>(() => typedNow("", manner));
  const [errors, setErrors] = useState(NO_ERRORS);
  const id = useId();
  const take = () => {
    const read = readProbe(day, typed, probes, manner);
    setErrors(read.errors);
    if (read.probe === null) return;
    own.onProbes([...probes, read.probe]);
    setTyped(typedNow("", manner));
  };
  return (
    <form
      class="handling-form"
      onSubmit={(event) => {
        event.preventDefault();
        take();
      }}
    >
      <div class={errors.day ? "field wrong" : "field"}>
        <label for={id}>Probed on</label>
        <input
          id={id}
          type="date"
          value={day}
          aria-invalid={errors.day ? "true" : undefined}
          aria-describedby={errors.day ? `${id}-error` : undefined}
          onInput={({ currentTarget }) => setDay(currentTarget.value)}
        />
        {errors.day ? <ErrorText id={`${id}-error`} text={errors.day} /> : null}
      </div>
      <TextField
        label="Inside the stack"
        unit={unitName("temperature", manner.units)}
        hint="the hottest place; several a day are welcome"
        value={shownTyped("temperature", typed, manner.units, manner.locale)}
        error={errors.temp}
        onText={(text) => {
          setTyped(typedNow(text, manner));
          setErrors(NO_ERRORS);
        }}
      />
      <button type="submit" class="aid">
        Write it down
      </button>
    </form>
  );
}

/** The heating log of one lot of new hay: kept by the device, told by the table's own steps. */
export function HeatingLog(props: HeatLogProps) {
  const { own, manner } = props;
  const { probes } = own.handling;
  const [before, setBefore] = useState<readonly Probe[] | null>(null);
  const log = logOf(probes);
  const sentence = heatSentence(probes, manner);
  const change = (next: readonly Probe[]) => {
    setBefore(probes);
    own.onProbes(next);
  };
  return (
    <Topic title="Heating log" sentence={sentence}>
      {needsFireService(log) ? (
        <Warning>
          <strong>Call the fire service before the stack is opened or moved.</strong> Keep off it: a burnt
          hollow carries nobody. Acid-treated hay may give off toxic smoke.
        </Warning>
      ) : (
        <Warning>
          From {fireServiceText(manner)} on, call the fire service before opening the stack. Do not walk on a
          hot one.
        </Warning>
      )}
      <HeatChart probes={probes} sentence={sentence} manner={manner} />
      <TakeProbe {...props} />
      {log === null ? null : <p>{degreeDaysSentence(log, manner)}</p>}
      {probes.length > 0 ? (
        <ul class="handling-probes">
          {probes.map((probe, i) => (
            <li key={`${probe.day} ${probe.tempC} ${i + 1}`}>
              <span>
                {dayWords(probe.day)}: {tempText(probe.tempC, manner)}
              </span>{" "}
              <button
                type="button"
                class="aid"
                aria-label={`Take back ${dayWords(probe.day)}, ${tempText(probe.tempC, manner)}`}
                onClick={() => change(probes.filter((one) => one !== probe))}
              >
                Take it back
              </button>
            </li>
          ))}
        </ul>
      ) : null}
      <p class="handling-buttons">
        {probes.length > 0 ? (
          <button type="button" class="aid" onClick={() => change([])}>
            Begin a new log
          </button>
        ) : null}
        {before !== null && before.length > probes.length ? (
          <button
            type="button"
            class="aid"
            onClick={() => {
              own.onProbes(before);
              setBefore(null);
            }}
          >
            Undo: heating log
          </button>
        ) : null}
        <span class="hint">
          {own.kept
            ? "Kept on this device, for one lot of hay."
            : "This device keeps nothing: write it down elsewhere too."}
        </span>
      </p>
      <WordsTable
        caption={`What to do by the temperature inside: ${HEAT_SOURCE}`}
        heads={["Inside", "Do", "What others say"]}
        rows={heatTable(manner)}
        applies={heatRow(log)}
      />
    </Topic>
  );
}
