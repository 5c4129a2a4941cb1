import { DAY_MS, HOUR_MS, localDayKey, startOfLocalDay } from "../weather/clock.ts";
import type { BookDocs, BookKind } from "./kinds.ts";

/** The invented farm of the demonstration as a book: nobody's fields, bales or results. */

const ZONE = "America/Chicago";

type DemoDocs = { readonly [K in BookKind]?: Readonly<Record<string, BookDocs[K]>> };

/** Its documents under their ids, around today, so that the coming days hold something of every kind. */
export function demoDocs(nowUtcMs: number): DemoDocs {
  const todayMs = startOfLocalDay(ZONE, localDayKey(nowUtcMs, ZONE));
  const at = (days: number, hour: number) =>
    new Date(todayMs + days * DAY_MS + hour * HOUR_MS).toISOString().replace(".000Z", "Z");
  const notes = "Invented.";
  return {
    sites: {
      "demo-farm": {
        name: "Demonstration farm (invented)",
        latitude: 44.3,
        longitude: -98.2,
        elevationM: 400,
        timeZone: ZONE,
        windHeightM: 10,
        notes,
      },
    },
    fields: {
      "demo-creek": {
        name: "Creek field",
        siteId: "demo-farm",
        areaHa: 12,
        crop: "alfalfa",
        dryMatterTHa: 3.2,
        initialMoistureWb: 0.78,
        stage: "early bloom",
        sprays: [
          {
            product: "Insecticide A (invented)",
            appliedUtc: at(-10, 8),
            intervalDays: 14,
            before: "cutting",
          },
        ],
        notes,
      },
      "demo-hill": {
        name: "Hill field",
        siteId: "demo-farm",
        areaHa: 8,
        crop: "drought-corn",
        dryMatterTHa: 5,
        initialMoistureWb: 0.8,
        stage: "barren, leaves browning",
        notes,
      },
    },
    machines: {
      "demo-mower": { name: "Mower", kind: "mower", haPerH: 4, widthM: 3.5, notes },
      "demo-baler": { name: "Baler", kind: "baler", package: "round", haPerH: 3, notes },
    },
    people: { "demo-one": { name: "First driver", from: "07:00", to: "20:00", notes } },
    prices: { "demo-prices": { name: "Example prices", pricePerTDm: { "dry-hay": 100 }, notes } },
    herds: {
      "demo-herd": {
        name: "Cows",
        animal: { class: "beef-cow", kg: 600 },
        count: 60,
        dailyNeedKgDm: 780,
        notes,
      },
    },
    cuts: {
      "demo-cut": {
        fieldId: "demo-creek",
        crop: "alfalfa",
        route: "dry-hay",
        package: "round",
        plannedUtc: at(4, 10),
        operations: [
          { kind: "ted", plannedUtc: at(5, 10) },
          { kind: "rake", plannedUtc: at(6, 11) },
          { kind: "bale", plannedUtc: at(6, 13), machineId: "demo-baler" },
        ],
        notes,
      },
    },
    lots: {
      "demo-hay": {
        name: "Creek, last cutting",
        fieldId: "demo-creek",
        crop: "alfalfa",
        route: "dry-hay",
        package: "round",
        place: "East barn",
        bales: 62,
        storedUtc: at(-9, 16),
        storedMoistureWb: 0.17,
        tests: [{ id: "demo-hay-test", what: "feed-value", sentUtc: at(-3, 9), expectedUtc: at(4, 12) }],
        heating: [
          { atUtc: at(-8, 17), tempC: 36 },
          { atUtc: at(-5, 17), tempC: 44 },
          { atUtc: at(-2, 17), tempC: 41 },
        ],
        notes,
      },
      "demo-wrapped": {
        name: "Hill, wrapped bales",
        fieldId: "demo-hill",
        crop: "drought-corn",
        route: "wrapped-bales",
        package: "round",
        place: "Yard",
        bales: 40,
        storedUtc: at(-38, 15),
        wrappedUtc: at(-38, 19),
        storedMoistureWb: 0.58,
        tests: [{ id: "demo-wrapped-test", what: "nitrate", dueUtc: at(4, 9) }],
        notes,
      },
    },
    readings: {
      "demo-reading": {
        lotId: "demo-hay",
        fieldId: "demo-creek",
        atUtc: at(-9, 15),
        method: "bale-probe",
        moistureWb: 0.17,
        place: "second row",
        notes,
      },
    },
  };
}
