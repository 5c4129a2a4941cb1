import { noteStatus } from "../book/key-needed.ts";
import type { Sample } from "../state/state.ts";

/** The invented weather that comes with the program; `coming` where it was asked for already. */
export async function fetchSamples(coming = fetch("api/samples")): Promise<readonly Sample[]> {
  const response = await coming;
  noteStatus(response.status);
  if (response.status === 401) throw new Error("this server asks for a key");
  if (!response.ok) throw new Error(`the server answered with status ${response.status}`);
  return (await response.json()) as readonly Sample[];
}
