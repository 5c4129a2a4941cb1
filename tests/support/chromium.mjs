// Where the browser tests find a Chromium, and how they start it. Node built-ins only: the gate itself reads this.
import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";

/** The engine alone first: it draws and runs what the whole browser does, and keeps no windows and menus beside it. */
const NAMES = [
  "chromium-headless-shell",
  "chromium",
  "chromium-browser",
  "google-chrome",
  "google-chrome-stable",
];

/**
 * What Chromium leaves out. The address line's own pages are in no picture here, but cost as much as ours at each window
 * that is opened. Playwright's list gives way to this one, so the part of it that matters stands here again.
 */
const LEFT_OUT = [
  "WebUIOmniboxPopup",
  "WebUIOmniboxAimPopup",
  "AimEnabled",
  "AutoDeElevate",
  "HttpsFirstBalancedModeAutoEnable",
  "HttpsUpgrades",
  "MediaRouter",
  "NetworkTimeServiceQuerying",
  "OptimizationHints",
  "PaintHolding",
  "PreconnectToSearch",
  "ThirdPartyStoragePartitioning",
  "Translate",
];

/** No sandbox (containers lack its privileges), no GPU, and nothing that reaches for the network by itself. */
export const CHROMIUM_FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  `--disable-features=${LEFT_OUT.join(",")}`,
];

function isProgram(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** Path of the Chromium to use: CHROMIUM if set, else an installed one on the PATH or in /usr/bin, else null. */
export function findChromium(env = process.env) {
  if (env.CHROMIUM) return isProgram(env.CHROMIUM) ? env.CHROMIUM : null;
  const folders = [...(env.PATH ?? "").split(delimiter).filter(Boolean), "/usr/bin"];
  for (const name of NAMES) {
    for (const folder of folders) {
      const path = join(folder, name);
      if (isProgram(path)) return path;
    }
  }
  return null;
}
