import type { Manner } from "../format/manner.ts";
import type { CrewDraft } from "./crew-draft.ts";
import { weatherWords } from "./PlaceWeather.tsx";

/** Whose crew it is, and in what weather. */
export function crewNote(draft: CrewDraft | null, inventedWeather: boolean, manner: Manner): string {
  const own = draft !== null && !draft.invented;
  const weather = draft?.weather;
  if (own && weather) return `Your crew, kept on this device. ${weatherWords(weather, manner)}`;
  const whose = own
    ? "Your crew, kept on this device. One weather stands for all places"
    : "Invented demonstration crew: fields, customers, machines and people are made up";
  return `${whose}${inventedWeather ? ", and the weather is invented" : ": that of the page"}.`;
}
