import type { AirTable } from "./air-table.ts";
import { fastExchange, fastSaturationKPa } from "./fast-exchange.ts";
import { fastExp } from "./fast-math.ts";
import type { FastMake, FastPool, FastSwath } from "./fast-swath.ts";
import { absorbedMm, drainedFilmMm, filmAfter, TRACE_MM } from "./film.ts";
import {
  LEAST_TREND_SHARE,
  MOST_CUTS,
  MOST_SEGMENTS,
  RAIN_PARTS,
  SETTLED_SHARE,
  SETTLED_WET_SHARE,
  SWIFT_SHARE,
} from "./step.ts";

/**
 * The same step as swathStep, over plain numbers for the sweep: no objects made, logarithms shared, the saturation of one
 * exchange carried to the next, weather-only terms read from a table. It must follow step.ts and exchange.ts line by line;
 * a test holds the two to 1e-9. Adds to the hour's fluxes in `s`.
 */
export function fastStep(
  s: FastSwath,
  make: FastMake,
  air: AirTable,
  i: number,
  rainMm: number,
  stepH: number,
): void {
  make.perMixedDb = 1 / s.mixedDb;
  make.riseK = s.riseK;
  make.rhFrac = s.rhFrac;
  make.saturationKPa = fastSaturationKPa((air.airTempC[i] as number) + s.riseK);
  const { leaf, stem, wholeMm } = make;
  const parts = rainMm > 0 || s.filmMm > make.heldMm ? RAIN_PARTS : 1;
  const partRainMm = rainMm / parts;
  const partH = stepH / parts;
  for (let part = 0; part < parts; part++) {
    if (partRainMm > 0 || s.filmMm > 0) rainStep(s, make, partRainMm / 2, partH / 2);
    let { filmMm, leafDb, stemDb } = s;
    let leftH = partH;
    for (let segment = 0; segment < MOST_SEGMENTS && leftH > 0; segment++) {
      make.filmMm = filmMm;
      leaf.db = filmMm > 0 ? leafDb : trendDb(leafDb, s.leafTrendPerH, leftH / 2);
      stem.db = filmMm > 0 ? stemDb : trendDb(stemDb, s.stemTrendPerH, leftH / 2);
      fastExchange(make, air, i);
      const filmLoss = make.filmLossMmPerH;
      let segmentH = leftH;
      let filmEndMm = -1;
      if (segment < MOST_SEGMENTS - 1) {
        if (filmMm > TRACE_MM && filmLoss > 0) {
          filmEndMm = filmMm > wholeMm + TRACE_MM ? wholeMm : 0;
          const endH = (filmMm - filmEndMm) / filmLoss;
          if (endH < leftH) segmentH = endH;
          else filmEndMm = -1;
        }
        const change =
          Math.max(Math.abs(leaf.lossPerH) / leafDb, Math.abs(stem.lossPerH) / stemDb) * segmentH;
        if (change > SWIFT_SHARE) {
          segmentH /= Math.min(MOST_CUTS, Math.ceil(change / SWIFT_SHARE));
          filmEndMm = -1;
        }
      }
      // The middle of the segment, and whether the exchange is another there than where it was taken.
      make.filmMm = filmAfter(filmMm, filmMm, filmLoss, segmentH / 2, wholeMm);
      const leafMiddleDb = middleDb(leaf, leafDb, segmentH / 2);
      const stemMiddleDb = middleDb(stem, stemDb, segmentH / 2);
      if (
        !(
          Math.abs(leafMiddleDb - leaf.db) < SETTLED_SHARE * leafDb &&
          Math.abs(stemMiddleDb - stem.db) < SETTLED_SHARE * stemDb &&
          Math.abs(Math.min(1, make.filmMm * make.perWholeMm) - make.wetShare) < SETTLED_WET_SHARE
        )
      ) {
        leaf.db = leafMiddleDb;
        stem.db = stemMiddleDb;
        fastExchange(make, air, i);
      }
      const leafNext = relaxedDb(leaf, leafDb, segmentH);
      const stemNext = relaxedDb(stem, stemDb, segmentH);
      const filmNext =
        filmEndMm >= 0 ? filmEndMm : filmAfter(filmMm, make.filmMm, make.filmLossMmPerH, segmentH, wholeMm);
      const leafLossMm = (leafDb - leafNext) * leaf.kg;
      const stemLossMm = (stemDb - stemNext) * stem.kg;
      const filmLossMm = filmMm - filmNext;
      if (leafLossMm > 0) s.evaporationMm += leafLossMm;
      else s.vapourUptakeMm -= leafLossMm;
      if (stemLossMm > 0) s.evaporationMm += stemLossMm;
      else s.vapourUptakeMm -= stemLossMm;
      if (filmLossMm > 0) s.evaporationMm += filmLossMm;
      else s.dewMm -= filmLossMm;
      s.leafTrendPerH = (leafNext - leafDb) / (leafDb * segmentH);
      s.stemTrendPerH = (stemNext - stemDb) / (stemDb * segmentH);
      filmMm = filmNext;
      leafDb = leafNext;
      stemDb = stemNext;
      leftH -= segmentH;
    }
    s.filmMm = filmMm;
    s.leafDb = leafDb;
    s.stemDb = stemDb;
    if (partRainMm > 0 || filmMm > 0) rainStep(s, make, partRainMm / 2, partH / 2);
  }
  s.riseK = make.riseK;
  s.rhFrac = make.rhFrac;
}

/** rainStep of step.ts. */
function rainStep(s: FastSwath, make: FastMake, rainMm: number, stepH: number): void {
  const { p, leaf, stem, heldMm } = make;
  const { filmMm, leafDb, stemDb } = s;
  const interceptedMm = rainMm * make.rainShare;
  const after = drainedFilmMm(filmMm, interceptedMm, heldMm, stepH, p.drainageH);
  const meanMm = Math.min(after, heldMm, (filmMm + after) / 2);
  const leafTake = absorbedMm(meanMm, leaf.share, leafDb, leaf.saturationDb, leaf.absorptionH, stepH);
  const stemTake = absorbedMm(meanMm, stem.share, stemDb, stem.saturationDb, stem.absorptionH, stepH);
  s.interceptedMm += interceptedMm;
  s.drainedMm += filmMm + interceptedMm - after;
  s.absorbedMm += leafTake + stemTake;
  s.filmMm = after - (leafTake + stemTake);
  s.leafDb = leafDb + leafTake / leaf.kg;
  s.stemDb = stemDb + stemTake / stem.kg;
}

/** trendDb of step.ts. */
function trendDb(db: number, trendPerH: number, hours: number): number {
  return db * Math.max(LEAST_TREND_SHARE, 1 + trendPerH * hours);
}

/** implicitRelax of step.ts, with its two divisions made one. */
function middleDb(pool: FastPool, db: number, hours: number): number {
  const gap = pool.db - pool.restDb;
  return gap * pool.lossPerH <= 0
    ? db
    : pool.restDb + ((db - pool.restDb) * gap) / (gap + pool.lossPerH * hours);
}

/** relax of step.ts. */
function relaxedDb(pool: FastPool, db: number, hours: number): number {
  const gap = pool.db - pool.restDb;
  if (gap * pool.lossPerH <= 0) return db;
  return pool.restDb + (db - pool.restDb) * fastExp((-pool.lossPerH / gap) * hours);
}
