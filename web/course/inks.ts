import type { RouteKey } from "../../model/harvest/keys.ts";

/** The page's colours as the canvas needs them. */
export interface Inks {
  readonly day: string;
  readonly night: string;
  readonly ink: string;
  readonly ink2: string;
  readonly rule: string;
  readonly hair: string;
  readonly rain: string;
  readonly leaf: string;
  readonly stem: string;
  /** Ground of the bands of chance. */
  readonly chance: string;
  readonly routes: Readonly<Record<RouteKey, string>>;
}

/** Where a token is not set: the page's day colours. */
const DAY_INKS: Inks = {
  day: "#FFFFFF",
  night: "#E1E5EA",
  ink: "#12201A",
  ink2: "#45524B",
  rule: "#C6CBC4",
  hair: "#DDE0DA",
  rain: "#0072B2",
  leaf: "#4F7A2B",
  stem: "#7A5C12",
  chance: "#3F5A4D",
  routes: {
    "dry-hay": "#E69F00",
    "wrapped-bales": "#CC79A7",
    "wilted-chop": "#009E73",
    "direct-chop": "#56B4E9",
    "green-chop": "#F0E442",
    grazing: "#FFFFFF",
  },
};

/** On paper: black on white, fills grey; form, name and dashes carry all. A browser still shows the screen's tokens then. */
export const PRINT_INKS: Inks = {
  day: "#FFFFFF",
  night: "#EFEFEF",
  ink: "#000000",
  ink2: "#333333",
  rule: "#B9B9B9",
  hair: "#D2D2D2",
  rain: "#555555",
  leaf: "#333333",
  stem: "#000000",
  chance: "#555555",
  routes: {
    "dry-hay": "#B9B9B9",
    "wrapped-bales": "#B9B9B9",
    "wilted-chop": "#B9B9B9",
    "direct-chop": "#B9B9B9",
    "green-chop": "#B9B9B9",
    grazing: "#FFFFFF",
  },
};

/** Reads the tokens where the chart stands. */
export function readInks(element: Element): Inks {
  const style = getComputedStyle(element);
  const token = (name: string, otherwise: string) => style.getPropertyValue(`--${name}`).trim() || otherwise;
  const routes = Object.fromEntries(
    Object.entries(DAY_INKS.routes).map(([key, ink]) => [key, token(key, ink)]),
  ) as Record<RouteKey, string>;
  return {
    day: token("day", DAY_INKS.day),
    night: token("night", DAY_INKS.night),
    ink: token("ink", DAY_INKS.ink),
    ink2: token("ink-2", DAY_INKS.ink2),
    rule: token("rule", DAY_INKS.rule),
    hair: token("hair", DAY_INKS.hair),
    rain: token("rain", DAY_INKS.rain),
    leaf: token("leaf", DAY_INKS.leaf),
    stem: token("stem", DAY_INKS.stem),
    chance: token("chance-band", DAY_INKS.chance),
    routes,
  };
}

/** Calls back when the colours may have changed: another theme of the page or of the device. Returns how to stop. */
export function watchTheme(changed: () => void): () => void {
  const media = matchMedia("(prefers-color-scheme: dark)");
  const marks = new MutationObserver(changed);
  marks.observe(document.documentElement, { attributes: true });
  media.addEventListener("change", changed);
  return () => {
    marks.disconnect();
    media.removeEventListener("change", changed);
  };
}
