import { type Warning, WEATHER_WARNING_CODES } from "../weather/warnings.ts";

/** What a board is warned of: its weather, then what is its own. */
export const BOARD_WARNING_CODES = [
  ...WEATHER_WARNING_CODES,
  "hazard-wait",
  "made-cut-left-out",
  "mowing-outside-work",
  "no-cut-rule",
  "odds-left-out",
  "readings-unused",
  "route-caution",
] as const;
export type BoardWarningCode = (typeof BOARD_WARNING_CODES)[number];
export type BoardWarning = Warning<BoardWarningCode>;
