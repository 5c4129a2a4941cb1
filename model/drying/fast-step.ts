import type { AirTable } from "./air-table.ts";
import { fastExchange, fastSaturationKPa } from "./fast-exchange.ts";
import { fastExp } from "./fast-math.ts";
import type { FastMake, FastPool, FastSwath } from "./fast-swath.ts";
import { absorbedMm, drainedFilmMm, filmAfter, TRACE_MM } from "./film.ts";
import { MOST_SEGMENTS, RAIN_PARTS, SETTLED_SHARE, SETTLED_WET_SHARE, WET_PARTS } from "./step.ts";

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
  const { p, leaf, stem, wholeMm, heldMm } = make;
  make.perMixedDb = 1 / s.mixedDb;
  make.riseK = s.riseK;
  make.rhFrac = s.rhFrac;
  make.saturationKPa = fastSaturationKPa((air.airTempC[i] as number) + s.riseK);

  let { filmMm, leafDb, stemDb } = s;
  const parts = rainMm > 0 || filmMm > heldMm ? RAIN_PARTS : filmMm > wholeMm ? WET_PARTS : 1;
  const partH = stepH / parts;
  const partRainMm = rainMm / parts;
  for (let part = 0; part < parts; part++) {
    if (partRainMm > 0 || filmMm > 0) {
      const interceptedMm = partRainMm * make.rainShare;
      const after = drainedFilmMm(filmMm, interceptedMm, heldMm, partH, p.drainageH);
      const meanMm = Math.min(after, heldMm, (filmMm + after) / 2);
      const leafTake = absorbedMm(meanMm, leaf.share, leafDb, leaf.saturationDb, leaf.absorptionH, partH);
      const stemTake = absorbedMm(meanMm, stem.share, stemDb, stem.saturationDb, stem.absorptionH, partH);
      s.interceptedMm += interceptedMm;
      s.drainedMm += filmMm + interceptedMm - after;
      s.absorbedMm += leafTake + stemTake;
      filmMm = after - (leafTake + stemTake);
      leafDb += leafTake / leaf.kg;
      stemDb += stemTake / stem.kg;
    }

    let leftH = partH;
    for (let segment = 0; segment < MOST_SEGMENTS && leftH > 0; segment++) {
      make.filmMm = filmMm;
      leaf.db = leafDb;
      stem.db = stemDb;
      fastExchange(make, air, i);
      const filmLoss = make.filmLossMmPerH;
      let segmentH = leftH;
      let filmEndMm = -1;
      if (segment < MOST_SEGMENTS - 1 && filmMm > TRACE_MM && filmLoss > 0) {
        filmEndMm = filmMm > wholeMm + TRACE_MM ? wholeMm : 0;
        const endH = (filmMm - filmEndMm) / filmLoss;
        if (endH < leftH) segmentH = endH;
        else filmEndMm = -1;
      }
      // The middle of the segment, and whether the exchange has changed by then. Where it has not, the rates of the
      // start go with the pools at the middle, as in step.ts.
      make.filmMm = filmAfter(filmMm, filmMm, filmLoss, segmentH / 2, wholeMm);
      leaf.db = middleDb(leaf, leafDb, segmentH / 2);
      stem.db = middleDb(stem, stemDb, segmentH / 2);
      if (
        !(
          Math.abs(leaf.db - leafDb) < SETTLED_SHARE * leafDb &&
          Math.abs(stem.db - stemDb) < SETTLED_SHARE * stemDb &&
          Math.abs(Math.min(1, make.filmMm * make.perWholeMm) - make.wetShare) < SETTLED_WET_SHARE
        )
      ) {
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
      filmMm = filmNext;
      leafDb = leafNext;
      stemDb = stemNext;
      leftH -= segmentH;
    }
  }
  s.filmMm = filmMm;
  s.leafDb = leafDb;
  s.stemDb = stemDb;
  s.riseK = make.riseK;
  s.rhFrac = make.rhFrac;
}

/** implicitRelax of step.ts, with its two divisions made one. */
function middleDb(pool: FastPool, db: number, hours: number): number {
  const gap = db - pool.restDb;
  return gap * pool.lossPerH <= 0 ? db : pool.restDb + (gap * gap) / (gap + pool.lossPerH * hours);
}

/** relax of step.ts. */
function relaxedDb(pool: FastPool, db: number, hours: number): number {
  const gap = pool.db - pool.restDb;
  if (gap * pool.lossPerH <= 0) return db;
  return pool.restDb + (db - pool.restDb) * fastExp((-pool.lossPerH / gap) * hours);
}
