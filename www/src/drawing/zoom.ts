// Zoom: going nearer to the drawing and moving over it, by wheel, fingers, keys and buttons. The core keeps the window.

import type { Desk } from "../generated/overmantel.js";
import { known } from "../page/dom.js";

/** What the drawing does for it. */
export interface ZoomedDrawing {
  /** Draws in the next frame. */
  later(): void;
  /** Puts back what is being dragged. */
  letGo(): void;
  /** Whether something is being dragged. */
  isHeld(): boolean;
}

/** One press of a key or a button goes so much nearer. */
const STEP = 1.5;

type At = [number, number];

/** Lets a person go nearer to the drawing. */
export function zoomByHand(stage: HTMLElement, desk: Desk, drawing: ZoomedDrawing): void {
  const fingers = new Map<number, At>();
  const at = (event: MouseEvent): At => {
    const box = stage.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };
  const middle = (): At => [stage.clientWidth / 2, stage.clientHeight / 2];
  const drawn = (): void => {
    const isZoomed = desk.is_zoomed();
    stage.toggleAttribute("data-zoomed", isZoomed);
    known<HTMLButtonElement>("whole").disabled = !isZoomed;
    known<HTMLButtonElement>("farther").disabled = !isZoomed;
    drawing.later();
  };
  const zoom = (factor: number, point: At): void => {
    desk.zoom(factor, ...point);
    drawn();
  };
  const whole = (): void => {
    desk.whole();
    drawn();
  };
  const pan = (right: number, down: number): boolean => {
    const moved = desk.pan(right, down);
    if (moved) drawing.later();
    return moved;
  };

  stage.addEventListener(
    "wheel",
    (event) => {
      const pixels = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1;
      if (event.ctrlKey || event.metaKey) {
        event.preventDefault();
        zoom(Math.exp(-event.deltaY * pixels * 0.0025), at(event));
      } else if (desk.is_zoomed() && pan(event.deltaX * pixels, event.deltaY * pixels)) {
        event.preventDefault();
      }
    },
    { passive: false },
  );

  stage.addEventListener("pointerdown", (event) => {
    const isFree = !(event.target instanceof Element && event.target.closest(".handle, .field"));
    if (event.pointerType !== "touch" && !(desk.is_zoomed() && isFree && event.button === 0)) return;
    fingers.set(event.pointerId, at(event));
    if (fingers.size === 2) drawing.letGo();
    if (isFree && desk.is_zoomed()) stage.setPointerCapture(event.pointerId);
  });
  stage.addEventListener("pointermove", (event) => {
    const before = fingers.get(event.pointerId);
    if (!before) return;
    const now = at(event);
    fingers.set(event.pointerId, now);
    if (fingers.size === 1 && !drawing.isHeld()) pan(before[0] - now[0], before[1] - now[1]);
    const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1];
    if (fingers.size !== 2 || !other) return;
    const apart = ([x, y]: At): number => Math.max(1, Math.hypot(x - other[0], y - other[1]));
    // First nearer, so that there is somewhere to go.
    zoom(apart(now) / apart(before), [(before[0] + other[0]) / 2, (before[1] + other[1]) / 2]);
    pan((before[0] - now[0]) / 2, (before[1] - now[1]) / 2);
  });
  for (const end of ["pointerup", "pointercancel"] as const) {
    stage.addEventListener(end, (event) => fingers.delete(event.pointerId));
  }
  // Two fingers are for the drawing, one scrolls the page.
  stage.addEventListener("touchmove", (event) => event.touches.length > 1 && event.preventDefault(), { passive: false });

  known("nearer").addEventListener("click", () => zoom(STEP, middle()));
  known("farther").addEventListener("click", () => zoom(1 / STEP, middle()));
  known("whole").addEventListener("click", whole);
  const keys = (event: KeyboardEvent): void => {
    // A photograph in its place has no window of its own.
    if (event.ctrlKey || event.metaKey || event.altKey || stage.hidden) return;
    if (event.target instanceof HTMLInputElement && event.target.type === "text") return;
    const onButtons = event.target instanceof Element && event.target.closest("#zoom") !== null;
    const [across, down] = [stage.clientWidth / 8, stage.clientHeight / 8];
    const panned: Record<string, At> = { ArrowLeft: [-across, 0], ArrowRight: [across, 0], ArrowUp: [0, -down], ArrowDown: [0, down] };
    const by = onButtons && desk.is_zoomed() ? panned[event.key] : undefined;
    if (by) pan(...by);
    else if (event.key === "+" || event.key === "=") zoom(STEP, middle());
    else if (event.key === "-") zoom(1 / STEP, middle());
    else if (event.key === "0") whole();
    else return;
    event.preventDefault();
  };
  for (const id of ["sheet", "tools"]) known(id).addEventListener("keydown", keys);
  // What gets the focus is brought into the window.
  stage.addEventListener("focusin", (event) => {
    const element = event.target instanceof Element ? event.target.closest(".handle, .field") : null;
    if (!element || !desk.is_zoomed()) return;
    const [box, frame] = [element.getBoundingClientRect(), stage.getBoundingClientRect()];
    const [x, y] = [box.left + box.width / 2 - frame.left, box.top + box.height / 2 - frame.top];
    if (x < 0 || y < 0 || x > frame.width || y > frame.height) pan(x - frame.width / 2, y - frame.height / 2);
  });
}
