import { render } from "preact";
import { expect, test, vi } from "vitest";
import { lazyFold } from "../../web/fold/lazy-fold.tsx";
import { pageHost } from "../support/page-host.ts";

const host = pageHost();

const soon = (check: () => void) => vi.waitFor(check, { timeout: 5000, interval: 20 });

function Herd({ cows }: { readonly cows: number }) {
  return <p class="herd">{cows} cows</p>;
}

test("a lazy fold fetches its part when it is opened, once, and hands on what it is given", async () => {
  const load = vi.fn(async () => Herd);
  const Section = lazyFold({ class: "herds", summary: "The herd", load });
  render(<Section cows={3} />, host);
  const details = host.querySelector("details");
  expect(details?.className).toBe("herds");
  expect(details?.textContent).toBe("The herd");
  expect(load).not.toHaveBeenCalled();

  host.querySelector("summary")?.click();
  await soon(() => expect(host.querySelector(".herd")?.textContent).toBe("3 cows"));
  render(<Section cows={4} />, host);
  expect(host.querySelector(".herd")?.textContent).toBe("4 cows");

  host.querySelector("summary")?.click();
  await soon(() => expect(host.querySelector(".herd")).toBeNull());
  host.querySelector("summary")?.click();
  await soon(() => expect(host.querySelector(".herd")?.textContent).toBe("4 cows"));
  expect(load).toHaveBeenCalledTimes(1);
});

test("a part that cannot be fetched says so, and is asked for again when the fold is opened anew", async () => {
  const load = vi.fn(async () => Herd).mockRejectedValueOnce(new Error("no network"));
  const Section = lazyFold({ class: "herds", summary: "The herd", load });
  render(<Section cows={3} />, host);
  host.querySelector("summary")?.click();
  await soon(() =>
    expect(host.querySelector('[role="alert"]')?.textContent).toContain("could not be fetched"),
  );
  host.querySelector("summary")?.click();
  await soon(() => expect(host.querySelector('[role="alert"]')).toBeNull());
  host.querySelector("summary")?.click();
  await soon(() => expect(host.querySelector(".herd")?.textContent).toBe("3 cows"));
});

test("without a network it is said that the part needs one once, and it comes by itself when there is one", async () => {
  const load = vi.fn(async () => Herd).mockRejectedValueOnce(new Error("no network"));
  const online = vi.spyOn(navigator, "onLine", "get").mockReturnValue(false);
  const Section = lazyFold({ class: "herds", summary: "The herd", load });
  render(<Section cows={3} />, host);
  host.querySelector("summary")?.click();
  await soon(() =>
    expect(host.querySelector('[role="alert"]')?.textContent).toContain(
      "not on this device yet: it needs a connection once",
    ),
  );
  expect(host.textContent).not.toContain("Load the page again");
  online.mockRestore();
  await soon(() => {
    dispatchEvent(new Event("online"));
    expect(host.querySelector(".herd")?.textContent).toBe("3 cows");
  });
});
