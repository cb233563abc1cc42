// In your room: the plan's pieces in a photograph of the wall that they are for. The core finds the sheet, measures and draws; the photograph
// stays on this machine: nothing of it goes into a plan or a link, and into a proposal or a paper only when that is chosen.

import type { Desk, RoomPhotograph, RoomSheet } from "../generated/overmantel.js";
import { devicePixels } from "../drawing/sheet.js";
import { dropRoom, keepRoom, keptRoom } from "../kept/database.js";
import { button } from "../page/controls.js";
import { known, make } from "../page/dom.js";
import { reason } from "../page/error.js";
import type { Core } from "../start/core.js";
import type { PageState } from "../state.js";
import { chosen, keptOne, type Chosen } from "./choosing.js";
import { Hanging } from "./hanging.js";
import { Marking } from "./marking.js";
import { radios } from "./panel.js";
import { Surface } from "./surface.js";

/** What the page does for it. */
export interface InRoom {
  /** Draws in the next frame. */
  draw(): void;
  /** The plan has changed. */
  changed(): void;
  say(text: string): void;
}

/** What is done in the photograph. */
type Mode = "hang" | "mark";

/** Pixels of the longer side of what is drawn on the screen, at most. */
const MOST_PX = 1600;
/** Marks are kept so long after the last change, in milliseconds. */
const KEEP_AFTER = 300;

const LABELS: Record<Mode, string> = {
  hang: "The pieces in your photograph; the arrow keys move them, with Shift by large steps",
  mark: "Your photograph with its marks; the arrow keys move the cross, and Enter sets a point",
};

/** The view of the pieces in a photograph. */
export class Room {
  private readonly place = known("room");
  private readonly choosing = known("room-choose");
  private readonly frame = known("room-frame");
  private readonly section = known("photograph");
  /** In place of the specification while the photograph is marked. */
  private readonly beside = known("marking");
  private readonly limits = make("p", { class: "quiet limits" });
  private readonly modes: HTMLElement;
  private readonly back: HTMLButtonElement;
  private readonly toSheet: HTMLButtonElement;
  private readonly surface: Surface;
  private readonly hanging: Hanging;
  private readonly marking: Marking;
  private mode: Mode = "hang";
  private current: Chosen | undefined;
  /** What was forgotten last, to be brought back. */
  private forgotten: Chosen | undefined;
  private isLoaded = false;
  private keeping = 0;
  /** Which choice is the last: one that was overtaken is dropped. */
  private turn = 0;

  constructor(
    private readonly core: Core,
    private readonly desk: Desk,
    private readonly state: PageState,
    private readonly page: InRoom,
  ) {
    const photograph = (): RoomPhotograph | undefined => this.photograph;
    const { draw, changed, say } = page;
    this.surface = new Surface(() => (this.mode === "hang" || state.now.clean ? this.hanging : this.marking), draw);
    this.hanging = new Hanging(desk, state, { photograph, draw, changed, say });
    const { RoomPhotograph: of } = core;
    this.marking = new Marking(desk, this.surface, { photograph, draw, changed, say, marked: () => this.keepLater() }, {
      papers: of.papers(),
      lights: of.lights(),
      things: of.things(),
      ends: of.ends(),
      photograph,
    });
    this.modes = radios("room-mode", "In the photograph", [["hang", "hang the pieces"], ["mark", "mark the photograph"]], (mode) => {
      this.go(mode === "mark" ? "mark" : "hang");
      this.page.say(this.greeting());
      this.surface.canvas.scrollIntoView({ block: "nearest" });
    });
    const file = known<HTMLInputElement>("room-file");
    known("choose-room").addEventListener("click", () => file.click());
    file.addEventListener("change", () => {
      const [first] = file.files ?? [];
      if (first !== undefined) void this.choose(first);
      file.value = "";
    });
    this.back = button("Bring the last one back", () => {
      if (this.forgotten !== undefined) void this.take(this.forgotten).then(() => page.say("The photograph is back."));
    });
    this.back.hidden = true;
    this.choosing.append(make("p", {}, this.back));
    this.marking.element.append(make("p", { class: "acts" }, button("Choose another photograph", () => file.click()), button("Forget this photograph", () => void this.forget())));
    this.toSheet = button("Bring the pieces back to the sheet", () => {
      this.photograph?.hang_at_sheet();
      page.say("The pieces hang where the sheet is.");
      page.draw();
      this.keepLater();
    });
    this.section.append(this.modes, this.toSheet, this.limits);
    this.beside.append(this.marking.element);
    this.surface.canvas.addEventListener("keydown", (event) => {
      // What is undone belongs to where one is.
      if (this.mode !== "mark" || !(event.ctrlKey || event.metaKey) || event.shiftKey || event.key.toLowerCase() !== "z") return;
      event.preventDefault();
      this.marking.undo();
    });
    this.surface.canvas.addEventListener("contextrestored", () => {
      this.photograph?.forget_canvas();
      page.draw();
    });
    addEventListener("pagehide", () => void this.keep());
    this.go("hang");
  }

  private get photograph(): RoomPhotograph | undefined {
    return this.current?.photograph;
  }

  /** Shows the photograph, or no longer. */
  show(isShown: boolean): void {
    document.body.toggleAttribute("data-photograph", isShown);
    this.place.hidden = !isShown;
    this.lay();
    if (!isShown) return;
    if (this.isLoaded) this.page.say(this.greeting());
    else void this.load();
  }

  /** Another plan is at work: where its pieces would be out of sight, they hang where the sheet is. */
  another(): void {
    const { photograph } = this;
    if (photograph === undefined || photograph.is_in_sight(this.desk)) return;
    photograph.hang_at_sheet();
    this.keepLater();
  }

  /** Shows what the plan says of the photograph: lengths in its units. */
  update(): void {
    if (!this.state.now.photographed || this.photograph === undefined) return;
    this.marking.show();
    this.limits.textContent = this.photograph.view(this.desk).notes.find(({ code }) => code === "limits")?.text ?? "";
  }

  /** Whether what is dropped here is a photograph of the room. */
  takesDrop(event: DragEvent | undefined): boolean {
    return this.state.now.photographed && event?.target instanceof Node && this.place.contains(event.target);
  }

  /** Takes a photograph from a file; where that can't be used, the one before stays. */
  async choose(file: File): Promise<void> {
    const turn = ++this.turn;
    this.page.say("Looking for the sheet…");
    try {
      const next = await chosen(this.core, file);
      if (turn !== this.turn) {
        next.photograph.free();
        return;
      }
      await this.take(next);
    } catch (error) {
      if (error instanceof WebAssembly.RuntimeError) throw error;
      this.page.say(reason(error));
    }
  }

  /** Draws the photograph as it is shown now. */
  draw(): void {
    const { photograph } = this;
    if (photograph === undefined) return;
    const longer = this.surface.fit(photograph.aspect(), this.state.now.clean);
    const most_px = Math.max(1, Math.min(MOST_PX, devicePixels(longer)));
    const sheet: RoomSheet = { most_px, pixel_ratio: most_px / longer };
    // Where the ends of the wall are marked, those say where it is.
    this.toSheet.hidden = this.mode === "mark" || photograph.is_in_sight(this.desk) || ["end.0", "end.3"].every((end) => photograph.place_of(end, 1) !== undefined);
    const { context } = this.surface;
    const showsPieces = this.mode === "hang" || this.state.now.clean || this.marking.showsPieces;
    if (showsPieces && photograph.draw(this.desk, context, sheet)) return;
    photograph.draw_marks(context, sheet, this.marking.chosen);
  }

  /** Whether there is a photograph here. */
  async isKept(): Promise<boolean> {
    return this.current !== undefined || (!this.isLoaded && (await keptRoom()) !== undefined);
  }

  /** The pieces of a plan in the photograph, to go along with something; nothing where there is none in which they hang. */
  async seen(desk: Desk): Promise<ImageData | undefined> {
    if (!this.isLoaded) await this.load();
    const { photograph } = this;
    const context = document.createElement("canvas").getContext("2d", { alpha: false, willReadFrequently: true });
    if (photograph === undefined || !context || !photograph.draw(desk, context, { most_px: MOST_PX, pixel_ratio: 1 })) return undefined;
    return context.getImageData(0, 0, context.canvas.width, context.canvas.height);
  }

  /** Draws the pieces in the photograph for a file; whether there is one in which they hang. */
  picture(context: CanvasRenderingContext2D, most_px: number): boolean {
    return this.photograph?.draw(this.desk, context, { most_px, pixel_ratio: 1 }) ?? false;
  }

  /** Takes up the photograph that was kept, where there is one. */
  private async load(): Promise<void> {
    this.isLoaded = true;
    const kept = await keptRoom();
    if (kept === undefined || this.current !== undefined) {
      this.page.say(this.greeting());
      return;
    }
    if (this.state.now.photographed) this.page.say("Opening your photograph…");
    try {
      await this.take(await keptOne(this.core, kept));
    } catch (error) {
      if (error instanceof WebAssembly.RuntimeError) throw error;
      this.page.say(reason(error));
    }
  }

  private async take(next: Chosen): Promise<void> {
    if (next !== this.forgotten) this.forgotten?.photograph.free();
    this.forgotten = undefined;
    this.back.hidden = true;
    this.current?.photograph.free();
    this.current = next;
    this.isLoaded = true;
    const { known: isKnown } = next.photograph.view(this.desk);
    this.choosing.hidden = true;
    this.frame.hidden = false;
    this.marking.another();
    this.another();
    this.go(isKnown ? "hang" : "mark");
    this.update();
    this.page.say(this.greeting());
    // Where the pieces hang is settled by the first drawing, and is kept along.
    this.draw();
    this.page.draw();
    const isKept = await this.keep();
    if (!isKept) this.page.say("The photograph could not be kept on this machine; after a reload you have to choose it again.");
  }

  private greeting(): string {
    if (this.photograph === undefined || !this.state.now.photographed) return "";
    const { known: isKnown, paper } = this.photograph.view(this.desk);
    if (paper === undefined) return "No sheet was found: press two opposite corners of it.";
    if (!isKnown) return "The sheet doesn't fit what else is marked: look at its corners and its paper.";
    if (this.mode === "mark") return "";
    return "The pieces hang here in true size: drag them.";
  }

  private go(mode: Mode): void {
    this.mode = mode;
    const input = this.modes.querySelector<HTMLInputElement>(`[value="${mode}"]`);
    if (input) input.checked = true;
    this.lay();
    this.marking.cancel();
    if (mode === "hang") this.surface.draws(false);
    this.surface.canvas.setAttribute("aria-label", LABELS[mode]);
    this.update();
    this.page.draw();
  }

  /** Shows what stands below the photograph, and beside it. */
  private lay(): void {
    const isShown = this.state.now.photographed && this.current !== undefined;
    this.section.hidden = !isShown;
    this.beside.hidden = !isShown || this.mode === "hang";
    document.body.toggleAttribute("data-marking", !this.beside.hidden);
  }

  private async forget(): Promise<void> {
    clearTimeout(this.keeping);
    this.forgotten = this.current;
    this.current = undefined;
    this.choosing.hidden = false;
    this.frame.hidden = true;
    this.lay();
    this.back.hidden = this.forgotten === undefined;
    known("choose-room").focus({ preventScroll: true });
    const isGone = await dropRoom();
    this.page.say(isGone ? "The photograph is forgotten." : "The browser did not let the photograph be forgotten; delete this page's data in its settings.");
  }

  private keepLater(): void {
    clearTimeout(this.keeping);
    this.keeping = setTimeout(() => void this.keep(), KEEP_AFTER);
  }

  private async keep(): Promise<boolean> {
    clearTimeout(this.keeping);
    return this.current === undefined || keepRoom({ image: this.current.image, marks: this.current.photograph.marks() });
  }
}
