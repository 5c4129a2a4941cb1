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

const ROUTE_KEYS = Object.keys(PRINT_INKS.routes) as RouteKey[];

/** Reads the tokens where the chart stands; a token that is not set falls back to the browser's own ink or paper. */
export function readInks(element: Element): Inks {
  const style = getComputedStyle(element);
  const token = (name: string, otherwise = "CanvasText") =>
    style.getPropertyValue(`--${name}`).trim() || otherwise;
  const routes = Object.fromEntries(ROUTE_KEYS.map((key) => [key, token(key, "GrayText")])) as Record<
    RouteKey,
    string
  >;
  return {
    day: token("day", "Canvas"),
    night: token("night", "Canvas"),
    ink: token("ink"),
    ink2: token("ink-2"),
    rule: token("rule", "GrayText"),
    hair: token("hair", "GrayText"),
    rain: token("rain"),
    leaf: token("leaf"),
    stem: token("stem"),
    chance: token("chance-band", "GrayText"),
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
