let pressed = false;
const release = () => {
  pressed = false;
};
if (typeof addEventListener === "function") {
  addEventListener(
    "pointerdown",
    () => {
      pressed = true;
    },
    true,
  );
  addEventListener("pointerup", release, true);
  addEventListener("pointercancel", release, true);
}

/**
 * Does it once no finger or mouse button is down: what a field says on being left must not push a button away from under
 * the press that left the field.
 */
export function afterPress(run: () => void): void {
  if (!pressed) {
    run();
    return;
  }
  const once = () => {
    removeEventListener("pointerup", once);
    removeEventListener("pointercancel", once);
    // The click of the press comes after its release.
    setTimeout(run, 0);
  };
  addEventListener("pointerup", once);
  addEventListener("pointercancel", once);
}
