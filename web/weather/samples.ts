import type { Sample } from "../state/state.ts";

/** The invented weather that comes with the program. */
export async function fetchSamples(): Promise<readonly Sample[]> {
  const response = await fetch("api/samples");
  if (!response.ok) throw new Error(`the server answered with status ${response.status}`);
  return (await response.json()) as readonly Sample[];
}
