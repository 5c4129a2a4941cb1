import { del, get, set } from "idb-keyval";
import { type CrewDraft, readDraft } from "./crew-draft.ts";

/** The crew as the device keeps it. Where it lets nothing be kept, the crew lasts as long as the page. */

const KEY = "swathclock.crew";

export const keptDraft = (): Promise<CrewDraft | null> => get<unknown>(KEY).then(readDraft, () => null);

export const keepDraft = (draft: CrewDraft): Promise<void> => set(KEY, draft).catch(() => {});

export const forgetDraft = (): Promise<void> => del(KEY).catch(() => {});
