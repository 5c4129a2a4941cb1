/** Cuts that are often asked about, to be compared with in one tap. */
export const PRESETS = ["windrow", "unconditioned", "no-tedding", "later"] as const;
export type Preset = (typeof PRESETS)[number];
