let tell = () => {};
const told = new Promise<void>((resolve) => {
  tell = resolve;
});

/** By then the first board has its chances, even on a slow phone, ms. */
const REST_AFTER_MS = 8000;

/** The first board has its chances: from here on there is time for what nobody has asked for. */
export function chancesAreTold(): void {
  tell();
}

/** Until the first board has its chances, or ought to have them, and the browser has nothing better to do. */
export async function whenRested(): Promise<void> {
  await Promise.race([told, new Promise((resolve) => setTimeout(resolve, REST_AFTER_MS))]);
  if ("requestIdleCallback" in globalThis)
    await new Promise((resolve) => requestIdleCallback(resolve, { timeout: REST_AFTER_MS }));
}
