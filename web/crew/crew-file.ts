import {
  CREW_COUNTS,
  CREW_OPS,
  type CrewPlanRequest,
  checkCrewRequest,
  MACHINE_KINDS,
  SLOT_MINUTES,
} from "../../model/crew/index.ts";
import { CONDITIONINGS, CROPS, SOIL_CLASSES } from "../../model/drying/index.ts";
import {
  CLOCK_READING,
  CLOCK_READING_OR_24,
  PACKAGES,
  STORES,
  SWATH_ROUTES,
} from "../../model/harvest/index.ts";
import type { Outcome } from "../../model/limits.ts";
import {
  aClock,
  aFlag,
  aName,
  aNumber,
  anId,
  aText,
  aTime,
  everyKey,
  holding,
  listOf,
  maybe,
  oneOf,
  record,
} from "./shape.ts";

/** A file holds no more than the server takes, bytes. */
const MOST_BYTES = 64e6;

const id = anId(CREW_COUNTS.idLength);
const name = maybe(aName(CREW_COUNTS.nameLength));
const op = oneOf(CREW_OPS);
const off = maybe(listOf(record({ fromUtc: aTime, toUtc: aTime }), CREW_COUNTS.offSpans), false);
const number = maybe(aNumber, false);
const column = maybe(listOf(maybe(aNumber), 20_000));
const hours = holding({
  startUtc: listOf(aTime, 20_000),
  airTempC: listOf(maybe(aNumber), 20_000),
  relHumidityPct: column,
  windSpeedMps: column,
  solarWm2: column,
  rainMm: column,
  cloudPct: column,
});
const series = holding({
  site: holding({ latitude: aNumber, longitude: aNumber, elevationM: aNumber, timeZone: aText }),
  windHeightM: aNumber,
  origin: aText,
  hours,
  members: maybe(listOf(holding({ airTempC: column, relHumidityPct: column, rainMm: column }), 200)),
});
const swath = record({
  crop: oneOf(CROPS),
  dryMatterTHa: aNumber,
  initialMoistureWb: aNumber,
  conditioning: oneOf(CONDITIONINGS),
  coveredFraction: aNumber,
  stubbleCm: aNumber,
  soil: oneOf(SOIL_CLASSES),
  dryingAgent: maybe(aFlag),
  freeWaterMm: maybe(aNumber),
});
const field = record({
  id,
  siteId: id,
  name,
  customer: name,
  areaHa: aNumber,
  swath,
  route: oneOf(SWATH_ROUTES),
  package: maybe(oneOf(PACKAGES)),
  store: maybe(oneOf(STORES)),
  bandWb: maybe(listOf(aNumber, 2), false),
  ops: listOf(op, CREW_OPS.length),
  haPerH: maybe(everyKey(aNumber, CREW_OPS.length), false),
  valuePerHa: aNumber,
  priority: number,
  dueUtc: maybe(aTime),
  latenessPerDay: number,
});
const job = holding({ fieldId: id, op, machineId: id, personId: id, startUtc: aTime, endUtc: aTime });
const question = record({
  sites: everyKey(record({ series, name }), CREW_COUNTS.sites),
  fields: listOf(field, CREW_COUNTS.fields),
  machines: listOf(
    record({ id, kind: oneOf(MACHINE_KINDS), name, haPerH: number, offUtc: off }),
    CREW_COUNTS.machines,
  ),
  people: listOf(
    record({ id, name, from: aClock(CLOCK_READING), to: aClock(CLOCK_READING_OR_24), offUtc: off }),
    CREW_COUNTS.people,
  ),
  travelMin: maybe(everyKey(aNumber, CREW_COUNTS.travel), false),
  fixed: maybe(
    listOf(
      record({ fieldId: id, op, machineId: id, personId: maybe(id), startUtc: aTime, endUtc: maybe(aTime) }),
      CREW_COUNTS.fixed,
    ),
    false,
  ),
  previous: maybe(holding({ jobs: listOf(job, CREW_COUNTS.previousJobs), revision: number })),
  nowUtc: maybe(aTime),
  slotMin: maybe(oneOf(SLOT_MINUTES), false),
  horizonDays: number,
  readyShare: number,
  daylightOnly: maybe(aFlag, false),
  moveCostShare: number,
  roadKmH: number,
  compare: maybe(aFlag, false),
  hour12: maybe(aFlag, false),
  seed: number,
  timeLimitS: number,
});

/** A question of a crew plan as its file holds it, or all that is wrong with it, field by field. */
export function readCrewFile(text: string): Outcome<CrewPlanRequest> {
  if (text.length > MOST_BYTES) {
    const message = `The file has ${Math.round(text.length / 1e6)} MB, must have at most ${MOST_BYTES / 1e6}.`;
    return { ok: false, issues: [{ path: "", code: "too-large", message }] };
  }
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return { ok: false, issues: [{ path: "", code: "not-json", message: `The file is no JSON: ${why}` }] };
  }
  const shape = question(value, "");
  if (shape.length > 0) return { ok: false, issues: shape };
  const request = value as CrewPlanRequest;
  const issues = checkCrewRequest(request);
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: request };
}
