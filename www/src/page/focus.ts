// The focus stays on the page: where what had it goes away, what is nearest to that gets it.

const FOCUSABLE = "a[href], button:not(:disabled), input:not(:disabled), select, textarea, summary, [tabindex]";

/** Whether an element can hold the focus. */
function holds(element: HTMLElement): boolean {
  return element.isConnected && element.getClientRects().length > 0 && !element.matches(":disabled");
}

/** Watches for a focus that would fall to the body. */
export function keepFocus(): void {
  let path: HTMLElement[] = [];
  let due = false;
  const check = (): void => {
    due = false;
    const [last] = path;
    const now = document.activeElement;
    // What is hidden keeps the focus until the next frame has been drawn.
    if ((now !== document.body && !(now instanceof HTMLElement && now === last)) || last === undefined || holds(last)) return;
    for (const around of path.slice(1)) {
      if (around === document.body) return;
      if (!holds(around)) continue;
      const target = around.matches(FOCUSABLE) ? around : [...around.querySelectorAll<HTMLElement>(FOCUSABLE)].find((element) => holds(element) && element.tabIndex >= 0);
      if (target === undefined) continue;
      target.focus({ preventScroll: true });
      return;
    }
  };
  document.addEventListener("focusin", (event) => {
    path = event.composedPath().filter((element) => element instanceof HTMLElement);
  });
  // A press on nothing lets the focus go, as everywhere.
  document.addEventListener("pointerdown", () => (path = []), true);
  const watch = new MutationObserver(() => {
    // Once per frame, and after what is rebuilding the page has put the focus where it wants it.
    if (!due) requestAnimationFrame(check);
    due = true;
  });
  watch.observe(document.body, { childList: true, subtree: true, attributes: true, attributeFilter: ["hidden", "disabled", "open"] });
}
