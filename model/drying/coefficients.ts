import { type Coefficient, coefficient } from "../coefficient.ts";

/**
 * The numbers of the drying model that are not physics. Physical constants stand where they are used;
 * the isotherms, crops, conditioning and operations have records of their own.
 * A fitted value names the accuracy rows it was fitted to. The other rows were in sight while it was chosen, and chose nothing.
 */
export const DRYING = {
  // Radiation and heat
  albedo: coefficient(0.23, "-", "from-memory", "FAO-56 grass; 0.20-0.25 for a swath", [0.2, 0.25]),
  interceptionGM2: coefficient(
    130,
    "g/m²",
    "assumed",
    "a swath over 300 g/m² takes over 90 % of the light above it",
    [80, 200],
  ),
  groundReturn: coefficient(
    1,
    "-",
    "assumed",
    "share of the radiation passing a thin swath that dry ground under it hands back by day: that heat leaves through the same " +
      "air. Was 0, which let a thin dry swath rest cooler, so wetter, than a heavier one; chosen with the no-artefact test " +
      "in sight (0.5 still left 0.2 point)",
    [0.5, 1],
  ),
  groundShareDay: coefficient(
    0.15,
    "-",
    "assumed",
    "share of net radiation passed to the ground by day",
    [0.05, 0.3],
  ),
  groundShareNight: coefficient(
    0.33,
    "-",
    "assumed",
    "share of net radiation loss made good by the ground at night",
    [0.2, 0.5],
  ),
  emissivity: coefficient(0.96, "-", "from-memory", "vegetation", [0.94, 0.98]),
  clearSkyEmissivity: coefficient(
    1.24,
    "-",
    "published",
    "Brutsaert 1975, Water Resour. Res. 11:742-744; e in hPa, T in K",
    null,
  ),
  cloudEmissivity: coefficient(
    0.84,
    "-",
    "from-memory",
    "share of the gap to a black sky that full cloud closes",
    [0.75, 1],
  ),
  // Air above the swath
  roughnessM: coefficient(0.02, "m", "from-memory", "swath roughness length, 0.01-0.03 m", [0.01, 0.03]),
  heightAboveSwathM: coefficient(1.9, "m", "assumed", "2 m less a displacement of 0.1 m", null),
  leastWindMps: coefficient(0.5, "m/s", "assumed", "air under open sky is never quite still", [0.3, 0.8]),
  sunGustMps: coefficient(
    1.5,
    "m/s",
    "from-memory",
    "least wind at 2 m over ground in 1000 W/m², with the cube root of the sun: convective gusts, 1.2 w* (Beljaars 1995), 1.5-2; " +
      "the low end, chosen with the no-artefact test in sight: air near standstill let a colder, drier sky slow a heavy swath",
    [1, 2],
  ),
  freeConvection: coefficient(5, "-", "assumed", "slope of the buoyancy number in unstable air", [3, 16]),
  freeConvectionMost: coefficient(
    3,
    "-",
    "assumed",
    "greatest gain of conductance by free convection",
    [2, 4],
  ),
  stableLeast: coefficient(
    0.33,
    "-",
    "published",
    "dew studies in northern Germany: night conductance cut to 0.33. Used at night only; it was used by day too, beyond its " +
      "source, and then choked a heavy swath cooler than the air",
    [0.25, 0.5],
  ),
  stableSlope: coefficient(3, "-", "assumed", "how fast stability cuts the conductance", [1, 6]),
  // Tissue
  freshConductance: coefficient(
    0.0138,
    "m/s per kg/m²",
    "fitted",
    "fitted to the 1985 regression at VPD 1.5 kPa and the pan sum at 448 g/m²; a trial of this structure suggested 0.012-0.014",
    [0.008, 0.02],
  ),
  shapeFloor: coefficient(
    0.03,
    "-",
    "fitted",
    "fitted to the pan sum and the clear calm night; a trial of this structure suggested 0.02-0.1",
    [0.02, 0.3],
  ),
  coarseShapeFloor: coefficient(
    0.005,
    "-",
    "fitted",
    "fitted to drought corn 86 -> 70 % and to 18 %, rolled and not",
    [0, 0.1],
  ),
  shapeFullDb: coefficient(
    4,
    "kg/kg",
    "assumed",
    "moisture above which tissue conducts as when fresh",
    [3, 5],
  ),
  densityPower: coefficient(
    0.43,
    "-",
    "fitted",
    "fitted to the density exponent 200-900 g/m² (with the energy per kg it makes about 0.6)",
    [0.3, 0.7],
  ),
  densityFadeDb: coefficient(
    0.3,
    "kg/kg",
    "published",
    "below about 23 % thick swaths dry as fast as thin ones",
    [0.2, 0.4],
  ),
  stemEase: coefficient(
    0.25,
    "-",
    "published",
    "alfalfa thin layers (drying-rate literature): whole stems dry at a quarter of the rate of leaves",
    [0.2, 0.33],
  ),
  stemDiameterPower: coefficient(
    1.4,
    "-",
    "fitted",
    "fitted to drought corn 86 -> 70 % and to 18 %, between a skin limit (1) and an internal limit (2)",
    [1, 1.5],
  ),
  referenceStemMm: coefficient(3, "mm", "assumed", "alfalfa stem", [2, 4]),
  layerDepth: coefficient(
    0.22,
    "-",
    "fitted",
    "fitted to tedding of rows and of a fully spread swath",
    [0.1, 0.5],
  ),
  layerGM2: coefficient(
    600,
    "g/m²",
    "fitted",
    "fitted to tedding of rows and of a fully spread swath",
    [200, 1000],
  ),
  uptakeEase: coefficient(1.5, "-", "fitted", "fitted to the tissue gain of the clear calm night", [1, 6]),
  // Free water
  filmConductance: coefficient(
    0.1,
    "m/s",
    "assumed",
    "a wet surface inside the swath; the air above limits it",
    [0.03, 0.3],
  ),
  filmWholeKgKg: coefficient(
    0.1,
    "kg/kg",
    "assumed",
    "free water that wets the whole exposed surface",
    [0.05, 0.5],
  ),
  filmHeldKgKg: coefficient(
    1.5,
    "kg/kg",
    "from-memory",
    "free water that a drained swath holds, 1-2",
    [1, 2],
  ),
  drainageH: coefficient(
    0.8,
    "h",
    "published",
    "McGechan & Pitt, rewetting of partially dried grass swaths, part 3",
    null,
  ),
  absorptionH: coefficient(
    15,
    "h",
    "from-memory",
    "McGechan & Pitt, rewetting of partially dried grass swaths, part 3, give 15 h for uptake as a whole. The model divides it by " +
      "1 - M/Msat with Msat from memory, so it is theirs only for dry tissue: half-dry tissue takes about 25 h",
    [12, 19],
  ),
  rainCatchGM2: coefficient(300, "g/m²", "from-memory", "interception 1 - exp(-SD/SD0)", [200, 500]),
  saturationDb: coefficient(
    3.5,
    "kg/kg",
    "from-memory",
    "moisture at which tissue takes no more, 3-4",
    [3, 4],
  ),
  coarseSaturationDb: coefficient(
    1.4,
    "kg/kg",
    "assumed",
    "the same for dead or coarse stems, 1.3-1.5",
    [1.3, 1.5],
  ),
  // Ground below
  soilConductance: coefficient(
    0.002,
    "m/s",
    "assumed",
    "wet ground: no row was used to set it; cloud and wet soil against sun and dry soil was read afterwards",
    [0.0005, 0.005],
  ),
  soilNightShare: coefficient(
    0.25,
    "-",
    "assumed",
    "soil vapour reaching the swath in stable night air",
    [0.1, 0.5],
  ),
  moistSoil: coefficient(0.4, "-", "assumed", "wetness of moist against wet soil", [0.3, 0.6]),
  stubbleShelterCm: coefficient(15, "cm", "assumed", "stubble that cuts the soil's vapour to 1/e", [8, 30]),
} as const satisfies Record<string, Coefficient>;

export type DryingParameters = { readonly [K in keyof typeof DRYING]: number };

/** The plain numbers of the records, in the form the step computes with. */
export const DRYING_PARAMETERS: DryingParameters = Object.fromEntries(
  Object.entries(DRYING).map(([key, coefficient]) => [key, coefficient.value]),
) as DryingParameters;
