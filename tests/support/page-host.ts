import { render } from "preact";
import { afterEach, beforeEach } from "vitest";

/** The element that a page test draws into: on the page before each test, empty and gone after it. */
export function pageHost(): HTMLDivElement {
  const host = document.createElement("div");
  beforeEach(() => {
    document.body.append(host);
  });
  afterEach(() => {
    render(null, host);
    host.replaceChildren();
    host.removeAttribute("style");
    host.remove();
  });
  return host;
}
