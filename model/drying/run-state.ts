import type { FastSwath } from "./fast-swath.ts";
import type { SwathMake } from "./swath-state.ts";

/** What a run needs to go on from an hour. */
export interface RunState {
  readonly s: FastSwath;
  readonly done: number;
  readonly nextPass: number;
  readonly coveredFraction: number;
  readonly dryMatterTHa: number;
  readonly make: SwathMake;
}

/** A swath before the water of an hour. Made here alone: the engine's fast form of it is that of one literal. */
export function swathAt(
  filmMm: number,
  leafDb: number,
  stemDb: number,
  mixedDb: number,
  riseK: number,
  rhFrac: number,
  leafTrendPerH: number,
  stemTrendPerH: number,
): FastSwath {
  return {
    filmMm,
    leafDb,
    stemDb,
    mixedDb,
    riseK,
    rhFrac,
    leafTrendPerH,
    stemTrendPerH,
    interceptedMm: 0,
    drainedMm: 0,
    dewMm: 0,
    vapourUptakeMm: 0,
    absorbedMm: 0,
    evaporationMm: 0,
  };
}

/** The same swath, to go on by itself. */
export function twinOf(s: FastSwath): FastSwath {
  const { filmMm, leafDb, stemDb, mixedDb, riseK, rhFrac, leafTrendPerH, stemTrendPerH } = s;
  return swathAt(filmMm, leafDb, stemDb, mixedDb, riseK, rhFrac, leafTrendPerH, stemTrendPerH);
}
