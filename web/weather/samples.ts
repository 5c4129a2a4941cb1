import type { Fetched } from "../app/early-start.ts";
import { noteStatus } from "../book/key-needed.ts";
import type { Sample } from "../state/state.ts";

async function fetched(): Promise<Fetched> {
  const response = await fetch("api/samples");
  return { status: response.status, body: response.ok ? await response.json() : null };
}

/** The invented weather that comes with the program; `coming` where it was asked for already. */
export async function fetchSamples(coming: Promise<Fetched> = fetched()): Promise<readonly Sample[]> {
  const { status, body } = await coming;
  noteStatus(status);
  if (status === 401) throw new Error("this server asks for a key");
  if (body === null) throw new Error(`the server answered with status ${status}`);
  return body as readonly Sample[];
}
