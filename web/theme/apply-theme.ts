import type { Theme } from "../state/state.ts";

/** Puts the page into a theme: the style sheets read it from the root, the browser's own bars from the meta elements. */
export function applyTheme(theme: Theme, root: HTMLElement = document.documentElement): void {
  if (theme === "system") delete root.dataset.theme;
  else root.dataset.theme = theme;
  const ground = getComputedStyle(root).getPropertyValue("--ground").trim();
  const bar = root.ownerDocument.querySelector<HTMLMetaElement>('meta[name="theme-color"]');
  if (bar && ground !== "") bar.content = ground;
}
