// The pieces in the photograph: moved by hand and by keys, as in the flat view.

import type { AtView, Desk, RoomPhotograph } from "../generated/overmantel.js";
import type { PageState } from "../state.js";
import type { Hand } from "./surface.js";

/** What moving needs of the page. */
export interface Hangs {
  photograph(): RoomPhotograph | undefined;
  /** Draws in the next frame. */
  draw(): void;
  /** The plan has changed. */
  changed(): void;
  say(text: string): void;
}

const STEPS: Record<string, [number, number] | undefined> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/** Moves the pieces in the photograph. */
export class Hanging implements Hand {
  /** Whether the keys have moved them since they came. */
  private isPickedUp = false;

  constructor(
    private readonly desk: Desk,
    private readonly state: PageState,
    private readonly page: Hangs,
  ) {}

  press(at: AtView): boolean {
    // On the whole screen a press comes back.
    if (this.state.now.clean) return false;
    // What is being typed elsewhere is entered before anything moves.
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    if (this.state.now.held !== undefined || this.page.photograph()?.take(this.desk, at) !== true) return false;
    return this.state.change({ kind: "taken", handle: "group" });
  }

  move(at: AtView, event: PointerEvent): void {
    if (this.state.now.held === undefined) return;
    this.page.say(this.page.photograph()?.drag_to(this.desk, at, event.shiftKey) ?? "");
    this.page.draw();
  }

  lift(): void {
    this.drop(true);
  }

  cancel(): void {
    this.drop(false);
  }

  private drop(keep: boolean): void {
    // Escape has put them back already.
    if (!this.state.change({ kind: "dropped" })) return;
    if (keep) this.desk.release();
    else this.desk.abandon();
    this.page.changed();
  }

  key(event: KeyboardEvent): boolean {
    if (event.key === "Escape" && this.isPickedUp) {
      this.isPickedUp = false;
      if (this.desk.put_back()) this.page.changed();
      this.page.say("Put back.");
      return true;
    }
    const step = STEPS[event.key];
    if (step === undefined || this.page.photograph() === undefined) return false;
    if (!this.isPickedUp) this.desk.pick_up();
    this.isPickedUp = true;
    const said = this.desk.nudge("group", false, ...step, event.shiftKey);
    this.page.changed();
    this.page.say(`${said}.`);
    return true;
  }

  leave(): void {
    this.isPickedUp = false;
  }
}
