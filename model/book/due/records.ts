import { coefficient } from "../../coefficient.ts";

/** Times that the list of what is due goes by. */
export const DUE = {
  laboratoryDays: coefficient(
    7,
    "d",
    "assumed",
    "from posting a sample to its result; set the date yourself",
    [2, 21],
  ),
  paperBeforeDays: coefficient(
    60,
    "d",
    "assumed",
    "a paper may be of the standing crop; one older than this before storing is taken for another crop's",
    [14, 120],
  ),
  gasPeakDays: coefficient(
    3,
    "d",
    "published",
    "silo gas forms within hours and peaks on day 1 to 3 (Penn State, reported: High potential for silo gas)",
    [1, 3],
  ),
  lieDays: coefficient(
    3,
    "d",
    "assumed",
    "from the cut to bringing it in, where no work is planned; plan it to have it told by the hour",
    [1, 10],
  ),
  probeH: coefficient(24, "h", "published", "probe daily until it is steady (Purdue, Penn State)", null),
  hotProbeH: coefficient(
    2,
    "h",
    "published",
    "from 150 °F on every 2 hours, the strictest of the sources",
    [2, 24],
  ),
} as const;
