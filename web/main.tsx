import "@fontsource-variable/atkinson-hyperlegible-next/wght.css";
import "./style.css";
import { render } from "preact";
import { App } from "./app/App.tsx";
import { begin } from "./app/begin.ts";
import { registerOffline } from "./offline/register.ts";
import { watchPrint } from "./print/paper.ts";
import { applyTheme } from "./theme/apply-theme.ts";
import { readPreferences } from "./theme/preferences.ts";

// Before anything is drawn: a page that turns dark after it was light blinds in a cab.
applyTheme(readPreferences(navigator.language).theme);
// Before the page's own listeners: they measure what this lays out.
watchPrint();
const page = document.getElementById("page");
void begin().then((beginning) => {
  if (page) render(<App beginning={beginning} />, page);
  registerOffline();
});
