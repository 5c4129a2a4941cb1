import { useState } from "preact/hooks";
import type { Typed } from "../state/inputs.ts";
import { type Handling, keepHandling, type OwnField, type Probe, readHandling } from "./kept.ts";

/** What is typed in the fold, and how it is changed: each change is kept by the device at once. */
export interface Own {
  readonly handling: Handling;
  /** False where this device keeps nothing over a reload. */
  readonly kept: boolean;
  readonly onText: (field: OwnField, typed: Typed) => void;
  readonly onProbes: (probes: readonly Probe[]) => void;
}

export interface OwnProps {
  readonly own: Own;
}

export function useHandling(): Own {
  const [handling, setHandling] = useState(readHandling);
  const [kept, setKept] = useState(true);
  const take = (next: Handling) => {
    setHandling(next);
    setKept(keepHandling(next));
  };
  return {
    handling,
    kept,
    onText: (field, typed) => take({ ...handling, texts: { ...handling.texts, [field]: typed } }),
    onProbes: (probes) => take({ ...handling, probes }),
  };
}
