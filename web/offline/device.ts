import { get, set } from "idb-keyval";
import { type KeptVisit, type ReadKept, readKept } from "./kept.ts";

const KEY = "swathclock.visit";

/** What this device kept; null where it kept nothing or lets nothing be read. */
export async function readDevice(): Promise<ReadKept | null> {
  try {
    return readKept(await get<unknown>(KEY));
  } catch {
    return null;
  }
}

/** Keeps a visit; false where the device is full or lets nothing be kept. */
export async function keepOnDevice(visit: KeptVisit): Promise<boolean> {
  try {
    await set(KEY, visit);
    return true;
  } catch {
    return false;
  }
}
