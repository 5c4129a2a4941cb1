/** How the texts of an answer are written. Numbers and times beside the texts are not touched by it. */
export interface Saying {
  /** "1:30 pm" instead of "13:30". */
  readonly hour12: boolean;
  /** Millimetres and hectares, or inches and acres. */
  readonly units: "metric" | "us";
  readonly decimalMark: "." | ",";
  /** Times are told to this many minutes: a lone one and a start go up, an end goes down. */
  readonly stepMin: 1 | 5;
}

export const PLAIN_SAYING: Saying = { hour12: false, units: "metric", decimalMark: ".", stepMin: 1 };
