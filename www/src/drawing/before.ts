// Before and after: while a button is held, the drawing shows the plan as it was before the last step.

/** Shows the plan before the last step, or the plan as it is. */
export type ShowBefore = (before: boolean) => void;

/** Lets a button be held, by pointer or by key. */
export function holdToCompare(button: HTMLButtonElement, show: ShowBefore): void {
  let isHeld = false;
  const hold = (held: boolean): void => {
    if (held === isHeld || (held && button.disabled)) return;
    isHeld = held;
    button.setAttribute("aria-pressed", String(held));
    show(held);
  };
  button.setAttribute("aria-pressed", "false");
  button.addEventListener("pointerdown", (event) => {
    button.setPointerCapture(event.pointerId);
    hold(true);
  });
  for (const end of ["pointerup", "pointercancel", "blur"] as const) button.addEventListener(end, () => hold(false));
  button.addEventListener("contextmenu", (event) => event.preventDefault());
  button.addEventListener("keydown", (event) => {
    if (event.key !== " " && event.key !== "Enter") return;
    event.preventDefault();
    hold(true);
  });
  button.addEventListener("keyup", () => hold(false));
}
