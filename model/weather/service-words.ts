/** The open weather services by the names they give themselves, and how they can fail, for a reader who cannot mend it. */

export const SERVICE_LABELS = {
  "open-meteo": "Open-Meteo",
  "met-norway": "MET Norway",
  nws: "US National Weather Service",
  "bright-sky": "Bright Sky (DWD)",
} as const;

export const SERVICE_TROUBLES = {
  timeout: "did not answer in time",
  unreachable: "could not be reached",
  unavailable: "is out of order at the moment",
  "rate-limited": "wants no more questions for now",
  refused: "refused the question",
  "outside-coverage": "does not cover this place",
  unreadable: "gave an answer that cannot be read",
  "surprise-unit": "gave an answer in other units than it promises",
  implausible: "gave numbers that no weather can have",
  "too-old": "has only a forecast that is too old",
  "too-short": "has too few hours for this place",
} as const;
export type ServiceTrouble = keyof typeof SERVICE_TROUBLES;
