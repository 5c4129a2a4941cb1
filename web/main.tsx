import "@fontsource-variable/atkinson-hyperlegible-next/wght.css";
import "./style.css";
import { render } from "preact";
import { App } from "./app/App.tsx";
import { begin } from "./app/use-model.ts";

const page = document.getElementById("page");
if (page) render(<App beginning={begin()} />, page);
