import { fileURLToPath } from "node:url";

/** The root of the project. */
export const ROOT = fileURLToPath(new URL("../..", import.meta.url));
