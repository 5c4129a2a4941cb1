/** What should be looked at in an answer: the sentence is for people, the code for programs. */
export interface Warning<Code extends string = string> {
  readonly code: Code;
  readonly text: string;
}

/** What weather is warned of. */
export const WEATHER_WARNING_CODES = [
  "no-rain",
  "starts-late",
  "ends-early",
  "zone-far-from-longitude",
  "radiation-above-clear-sky",
  "radiation-in-the-dark",
  "temperatures-in-fahrenheit",
] as const;
export type WeatherWarning = Warning<(typeof WEATHER_WARNING_CODES)[number]>;

/** Warnings as an answer gives them: its sentences, and their codes in the same order. */
export function toldWarnings<Code extends string>(
  warnings: readonly Warning<Code>[],
): { readonly warnings: readonly string[]; readonly warningCodes: readonly Code[] } {
  return { warnings: warnings.map(({ text }) => text), warningCodes: warnings.map(({ code }) => code) };
}

/** The sentences of an answer that have one of these codes. */
export function warningsOfCode<Code extends string>(
  answer: { readonly warnings: readonly string[]; readonly warningCodes: readonly Code[] },
  code: Code,
): string[] {
  return answer.warnings.filter((_text, i) => answer.warningCodes[i] === code);
}
