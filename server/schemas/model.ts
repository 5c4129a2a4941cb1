import { z } from "@hono/zod-openapi";
import { CROPS } from "../../model/drying/index.ts";
import { PACKAGES, ROUTES, STORES } from "../../model/harvest/index.ts";

const limitSchema = z
  .strictObject({ min: z.number(), max: z.number(), unit: z.string(), minExcluded: z.boolean().optional() })
  .openapi("Limit");

const limitTable = z.record(z.string(), limitSchema);

const coefficientSchema = z
  .strictObject({
    value: z.number(),
    unit: z.string(),
    origin: z.enum(["published", "fitted", "assumed", "from-memory"]),
    source: z.string().min(1),
    validRange: z.tuple([z.number(), z.number()]).nullable(),
  })
  .openapi("Coefficient");

const bandEdge = z
  .strictObject({ wb: z.number(), origin: z.string(), source: z.string().min(1) })
  .openapi("BandEdge");

const nitrateTable = z.strictObject({
  key: z.string(),
  body: z.string().min(1),
  year: z.number().int().nullable(),
  source: z.string().min(1),
  origin: z.string(),
  bands: z.array(
    z
      .object({
        upTo: z.number().nullable(),
        class: z.string(),
        advice: z.string(),
        share: z.number().nullable(),
      })
      .loose(),
  ),
});

export const modelAnswer = z
  .strictObject({
    modelVersion: z.string(),
    crops: z.array(z.object({ key: z.enum(CROPS), label: z.string(), source: z.string() }).loose()),
    conditionings: z.array(z.string()),
    soils: z.array(z.string()),
    operations: z.array(z.string()),
    packages: z.array(z.enum(PACKAGES)),
    stores: z.array(z.enum(STORES)),
    routes: z.array(
      z.strictObject({
        key: z.enum(ROUTES),
        label: z.string(),
        can: z.string(),
        kind: z.enum(["swath", "standing"]),
        wholeArea: z.boolean(),
        packages: z.array(z.enum(PACKAGES)),
        stores: z.array(z.enum(STORES)),
        caution: z.string().min(1),
      }),
    ),
    hayStores: z.array(z.string()),
    feedings: z.array(z.string()),
    grazings: z.array(z.string()),
    hazards: z.array(z.string()),
    routeTables: z.strictObject({
      waits: z.array(
        z.strictObject({
          route: z.enum(ROUTES),
          crop: z.enum(CROPS),
          waits: z.array(
            z.strictObject({
              what: z.string(),
              amount: z.number().nullable(),
              unit: z.string().nullable(),
              text: z.string(),
              source: z.string(),
            }),
          ),
        }),
      ),
      heating: z.array(
        z.strictObject({
          fromF: z.number(),
          fromC: z.number(),
          level: z.string(),
          action: z.string(),
          others: z.string(),
        }),
      ),
      heatingSource: z.string(),
      commonPractice: z.array(
        z.strictObject({ quantity: z.string(), range: z.string(), label: z.string(), computes: z.string() }),
      ),
    }),
    defaults: z.record(z.string(), z.unknown()),
    bands: z.array(
      z.strictObject({
        route: z.enum(ROUTES),
        crop: z.enum(CROPS),
        package: z.enum(PACKAGES).nullable(),
        store: z.enum(STORES).nullable(),
        bandWb: z.tuple([z.number(), z.number()]),
        origin: z.string(),
        source: z.string().min(1),
        edges: z.tuple([bandEdge, bandEdge]),
      }),
    ),
    feed: z.strictObject({
      animals: z.array(z.string()),
      classes: z.array(z.strictObject({ key: z.string(), words: z.string() })),
      tables: z.array(nitrateTable),
      horses: nitrateTable,
    }),
    limits: z.strictObject({
      feed: limitTable,
      site: limitTable,
      weather: limitTable,
      swath: limitTable,
      harvest: limitTable,
      crew: limitTable,
      prices: limitTable,
      leave: limitTable,
      stores: limitTable,
    }),
    coefficients: z.record(z.string(), coefficientSchema),
  })
  .openapi("Model");
