import type { DryingParameters } from "./coefficients.ts";
import type { SwathMake } from "./swath-state.ts";

/** The swath as plain mutable numbers, and the water that moved in the current hour. */
export interface FastSwath {
  filmMm: number;
  leafDb: number;
  stemDb: number;
  mixedDb: number;
  riseK: number;
  rhFrac: number;
  leafTrendPerH: number;
  stemTrendPerH: number;
  interceptedMm: number;
  drainedMm: number;
  dewMm: number;
  vapourUptakeMm: number;
  absorbedMm: number;
  evaporationMm: number;
}

/**
 * Leaf or stem: what stays between two operations, then what the exchange reads and answers.
 * Numbers travel through these fields and not as arguments, since a call that is not inlined puts each number on the heap.
 */
export interface FastPool {
  readonly share: number;
  readonly freshMps: number;
  readonly shapeFloor: number;
  /** A coarse stem: stalk isotherm, one branch, and conductance in proportion to what it holds. */
  readonly thick: boolean;
  readonly kg: number;
  readonly perKg: number;
  readonly saturationDb: number;
  readonly absorptionH: number;
  /** Moisture where the segment starts and at its middle, dry basis, and the last trend. */
  startDb: number;
  middleDb: number;
  trendPerH: number;
  /** Moisture at which the exchange is taken, dry basis. */
  db: number;
  logDb: number;
  mps: number;
  /** Water activity on the drying and on the wetting branch; the second below 0 while it is not yet worked out. */
  dries: number;
  wets: number;
  /** The conductance and activity of the pass, as its branch has it. */
  nowMps: number;
  activity: number;
  /** Answer: loss, kg/kg/h, and the moisture towards which the pool moves. */
  lossPerH: number;
  restDb: number;
}

/** A make with what it and the parameters decide together, worked out once, and the moment of the exchange. */
export interface FastMake {
  readonly p: DryingParameters;
  readonly leaf: FastPool;
  readonly stem: FastPool;
  readonly soilMps: number;
  readonly dayLightShare: number;
  readonly nightLightShare: number;
  readonly rainShare: number;
  readonly layerLoss: number;
  readonly fullDensity: number;
  readonly densitySlope: number;
  readonly fadeDb: number;
  readonly perFullDb: number;
  readonly wholeMm: number;
  readonly perWholeMm: number;
  readonly heldMm: number;
  readonly stableRange: number;
  /** Free water at which the exchange is taken, mm, and the share of the surface under it. */
  filmMm: number;
  wetShare: number;
  /** Length of the segment, h. */
  segmentH: number;
  perMixedDb: number;
  /** What the dried-out layer and the film leave of the conductance. */
  open: number;
  /** First guess, then answer: swath above air, humidity inside, saturation at swath temperature. */
  riseK: number;
  rhFrac: number;
  saturationKPa: number;
  filmLossMmPerH: number;
}

/** Any number that is no integer: a field that starts as one keeps the engine's fast form for reals. */
const UNSET = 0.5;

export function fastMake(make: SwathMake, p: DryingParameters): FastMake {
  const { dryMatterKgM2, leafShare, coarseStem, stemSaturationDb, stemAbsorptionH } = make;
  const stemFloor = coarseStem ? p.coarseShapeFloor : p.shapeFloor;
  const wholeMm = p.filmWholeKgKg * dryMatterKgM2;
  return {
    p,
    leaf: pool(dryMatterKgM2, leafShare, make.leafMps, p.shapeFloor, false, p.saturationDb, p.absorptionH),
    stem: pool(
      dryMatterKgM2,
      1 - leafShare,
      make.stemMps,
      stemFloor,
      coarseStem,
      stemSaturationDb,
      stemAbsorptionH,
    ),
    soilMps: make.soilMps,
    dayLightShare: make.dayLightShare,
    nightLightShare: make.nightLightShare,
    rainShare: make.rainShare,
    layerLoss: make.layerLoss,
    fullDensity: make.fullDensity,
    densitySlope: (-p.densityPower * make.logDensity) / p.densityFadeDb,
    fadeDb: p.densityFadeDb,
    perFullDb: 1 / p.shapeFullDb,
    wholeMm,
    perWholeMm: 1 / wholeMm,
    heldMm: p.filmHeldKgKg * dryMatterKgM2,
    stableRange: 1 - p.stableLeast,
    filmMm: UNSET,
    segmentH: UNSET,
    wetShare: UNSET,
    perMixedDb: UNSET,
    open: UNSET,
    riseK: UNSET,
    rhFrac: UNSET,
    saturationKPa: UNSET,
    filmLossMmPerH: UNSET,
  };
}

function pool(
  dryMatterKgM2: number,
  share: number,
  freshMps: number,
  shapeFloor: number,
  thick: boolean,
  saturationDb: number,
  absorptionH: number,
): FastPool {
  const kg = dryMatterKgM2 * share;
  return {
    share,
    freshMps,
    shapeFloor,
    thick,
    kg,
    perKg: 1 / kg,
    saturationDb,
    absorptionH,
    startDb: UNSET,
    middleDb: UNSET,
    trendPerH: UNSET,
    db: UNSET,
    logDb: UNSET,
    mps: UNSET,
    dries: UNSET,
    wets: UNSET,
    nowMps: UNSET,
    activity: UNSET,
    lossPerH: UNSET,
    restDb: UNSET,
  };
}
