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
  leaf.trendPerH = s.leafTrendPerH;
  stem.trendPerH = s.stemTrendPerH;
  const parts = rainMm > 0 || s.filmMm > make.heldMm ? RAIN_PARTS : 1;
  const partRainMm = rainMm / parts;
  const partH = stepH / parts;
  for (let part = 0; part < parts; part++) {
    if (partRainMm > 0 || s.filmMm > 0) rainStep(s, make, partRainMm / 2, partH / 2);
    let { filmMm } = s;
    leaf.startDb = s.leafDb;
    stem.startDb = s.stemDb;
    let leftH = partH;
    for (let segment = 0; segment < MOST_SEGMENTS && leftH > 0; segment++) {
      make.filmMm = filmMm;
      make.segmentH = leftH;
      // One call in a loop, not two: the engine inlines so much and no more.
      for (let pool = leaf, left = 2; left > 0; left--, pool = stem) guess(pool, make);
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
          Math.max(Math.abs(leaf.lossPerH) / leaf.startDb, Math.abs(stem.lossPerH) / stem.startDb) * segmentH;
        if (change > SWIFT_SHARE) {
          segmentH /= Math.min(MOST_CUTS, Math.ceil(change / SWIFT_SHARE));
          filmEndMm = -1;
        }
      }
      make.segmentH = segmentH;
      // The middle of the segment, and whether the exchange is another there than where it was taken.
      make.filmMm = filmAfter(filmMm, filmMm, filmLoss, segmentH / 2, wholeMm);
      for (let pool = leaf, left = 2; left > 0; left--, pool = stem) findMiddle(pool, make);
      if (
        !(
          Math.abs(leaf.middleDb - leaf.db) < SETTLED_SHARE * leaf.startDb &&
          Math.abs(stem.middleDb - stem.db) < SETTLED_SHARE * stem.startDb &&
          Math.abs(Math.min(1, make.filmMm * make.perWholeMm) - make.wetShare) < SETTLED_WET_SHARE
        )
      ) {
        leaf.db = leaf.middleDb;
        stem.db = stem.middleDb;
        fastExchange(make, air, i);
      }
      for (let pool = leaf, left = 2; left > 0; left--, pool = stem) relax(pool, make, s);
      const filmNext =
        filmEndMm >= 0 ? filmEndMm : filmAfter(filmMm, make.filmMm, make.filmLossMmPerH, segmentH, wholeMm);
      const filmLossMm = filmMm - filmNext;
      if (filmLossMm > 0) s.evaporationMm += filmLossMm;
      else s.dewMm -= filmLossMm;
      filmMm = filmNext;
      leftH -= segmentH;
    }
    s.filmMm = filmMm;
    s.leafDb = leaf.startDb;
    s.stemDb = stem.startDb;
    if (partRainMm > 0 || filmMm > 0) rainStep(s, make, partRainMm / 2, partH / 2);
  }
  s.leafTrendPerH = leaf.trendPerH;
  s.stemTrendPerH = stem.trendPerH;
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

/** guessedState of step.ts. */
function guess(pool: FastPool, make: FastMake): void {
  pool.db =
    make.filmMm > 0
      ? pool.startDb
      : pool.startDb * Math.max(LEAST_TREND_SHARE, 1 + (pool.trendPerH * make.segmentH) / 2);
}

/** implicitRelax of step.ts, with its two divisions made one. */
function findMiddle(pool: FastPool, make: FastMake): void {
  const gap = pool.db - pool.restDb;
  const startGap = pool.startDb - pool.restDb;
  pool.middleDb =
    gap * pool.lossPerH <= 0
      ? pool.startDb
      : pool.restDb + (startGap * gap) / (gap + (pool.lossPerH * make.segmentH) / 2);
}

/** relax of step.ts, with the water that it moves. */
function relax(pool: FastPool, make: FastMake, s: FastSwath): void {
  const { startDb, restDb } = pool;
  const gap = pool.db - restDb;
  if (gap * pool.lossPerH <= 0) {
    pool.trendPerH = 0;
    return;
  }
  const nextDb = restDb + (startDb - restDb) * fastExp((-pool.lossPerH / gap) * make.segmentH);
  const lossMm = (startDb - nextDb) * pool.kg;
  if (lossMm > 0) s.evaporationMm += lossMm;
  else s.vapourUptakeMm -= lossMm;
  pool.trendPerH = (nextDb - startDb) / (startDb * make.segmentH);
  pool.startDb = nextDb;
}
