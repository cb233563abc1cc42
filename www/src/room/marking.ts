// What is marked in the photograph: a tool for each kind, by pointer, by finger and by keys; the list of its marks; what was measured.

import type { AtView, Desk, Outcome, RoomPhotograph, RoomView } from "../generated/overmantel.js";
import { capital } from "../state.js";
import { sentence } from "./choosing.js";
import { Panel, type Controls } from "./panel.js";
import type { Hand, Surface } from "./surface.js";
import { isTool, TOOLS, type Tool } from "./tools.js";

/** What marking needs of the page. */
export interface Marks {
  photograph(): RoomPhotograph | undefined;
  /** Draws in the next frame. */
  draw(): void;
  /** The marks have changed. */
  marked(): void;
  /** The plan has changed. */
  changed(): void;
  say(text: string): void;
}

/** A finger finds a mark within so many CSS pixels, and a mouse within these. */
const REACH = { touch: 24, other: 12 };
/** A press that goes farther than this draws; a shorter one is a point. In CSS pixels. */
const MOVED = 6;
/** One press of an arrow moves the cross so far, in CSS pixels. */
const STEP = { small: 2, large: 40 };

const ARROWS: Record<string, [number, number] | undefined> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** Marks the photograph. */
export class Marking implements Hand {
  readonly element: HTMLElement;
  /** The mark that was chosen last. */
  chosen: string | undefined;
  private tool: Tool = "sheet";
  private view: RoomView | undefined;
  /** The mark that is being dragged, and how far from its middle it was pressed. */
  private held: { mark: string; right: number; down: number; isMoved: boolean } | undefined;
  /** Points of what is being drawn. */
  private points: AtView[] = [];
  private pressed: AtView | undefined;
  /** The cross that the keys move. */
  private cross: AtView | undefined;
  /** The thing whose foot is to be pressed. */
  private foot: number | undefined;
  private readonly panel: Panel;

  constructor(
    private readonly desk: Desk,
    private readonly surface: Surface,
    private readonly page: Marks,
    controls: Controls,
  ) {
    this.panel = new Panel(controls, {
      turn: (tool) => this.turn(tool),
      redraw: () => {
        this.clear();
        page.draw();
      },
      choose: (mark) => this.choose(mark === this.chosen ? undefined : mark),
      key: (event) => this.keyOnMark(event),
      remove: () => this.remove(),
      undo: () => this.undo(),
      act: (change) => this.act(change),
      length: (text) => this.addLength(text),
      closeOutline: () => this.closeOutline(),
      foot: (index) => {
        this.clear();
        this.foot = index;
        this.show();
        page.say("Press where its front meets the floor, or go to the photograph and use the arrows and Enter.");
      },
      take: () => {
        const outcome = this.photograph?.take_into(desk);
        if (outcome?.error === undefined) page.changed();
        page.say(outcome?.error === undefined ? "Taken into the plan; undo brings back what was there." : sentence(outcome.error));
      },
    });
    this.element = this.panel.element;
  }

  /** Whether the pieces are shown while something is marked: what stands before them, and their light. */
  get showsPieces(): boolean {
    return TOOLS[this.tool].showsPieces === true;
  }

  private get photograph(): RoomPhotograph | undefined {
    return this.page.photograph();
  }

  /** Shows what is marked as it is now. */
  show(): void {
    const { photograph } = this;
    if (photograph === undefined) return;
    this.view = photograph.view(this.desk);
    if (this.chosen !== undefined && !this.view.marks.some(({ mark }) => mark === this.chosen)) this.chosen = undefined;
    this.panel.show(this.view, this.tool, this.chosen, this.words());
    this.surface.draws(this.wanted > 0);
  }

  /** Another photograph: nothing of the last one is chosen or half drawn. */
  another(): void {
    this.chosen = undefined;
    this.clear();
    this.tool = "sheet";
    this.show();
  }

  /** Goes over to a tool. */
  turn(tool: string): void {
    if (!isTool(tool)) return;
    this.tool = tool;
    this.foot = undefined;
    this.choose(undefined);
    this.clear();
    this.show();
    this.page.draw();
  }

  press(at: AtView, event: PointerEvent): boolean {
    const { photograph } = this;
    if (photograph === undefined) return false;
    this.cross = undefined;
    if (this.tool === "front") {
      if (this.panel.brush() !== undefined) this.points = [];
      this.pressed = at;
      this.draw(at);
      return true;
    }
    const mark = this.isSetting() ? undefined : this.under(at, event);
    if (mark !== undefined && this.tool !== "lines") {
      const [x = at.x, y = at.y] = photograph.place_of(mark, at.width) ?? [];
      this.held = { mark, right: x - at.x, down: y - at.y, isMoved: false };
      this.points = [];
      this.choose(mark);
      this.magnify({ ...at, x, y });
      return true;
    }
    if (this.wanted === 0) {
      this.choose(undefined);
      return false;
    }
    if (this.points.length >= 2) this.points = [];
    this.pressed = at;
    this.draw(at);
    this.magnify(at);
    return true;
  }

  move(at: AtView): void {
    if (this.held !== undefined) {
      const moved = { ...at, x: at.x + this.held.right, y: at.y + this.held.down };
      this.held.isMoved = true;
      this.photograph?.drag_mark(this.held.mark, moved);
      this.magnify(moved);
      this.page.draw();
      return;
    }
    if (this.pressed === undefined) return;
    if (this.tool === "front" && this.panel.brush() !== undefined) {
      if (this.points.length === 0) this.points = [this.pressed];
      this.points.push(at);
    } else {
      this.magnify(at);
    }
    this.draw(at);
  }

  lift(at: AtView, event: PointerEvent): void {
    this.surface.magnify(undefined);
    const { held, pressed } = this;
    if (held !== undefined) {
      this.held = undefined;
      if (!held.isMoved) return;
      this.photograph?.release_mark();
      this.changed();
      return;
    }
    this.pressed = undefined;
    if (pressed === undefined) return;
    if (this.tool === "front" && this.panel.brush() !== undefined) {
      if (this.points.length === 0) this.points = [pressed];
      this.paint();
      return;
    }
    const isMoved = Math.hypot(at.x - pressed.x, at.y - pressed.y) > MOVED;
    if (!isMoved && this.tool === "lines" && this.points.length === 0) {
      const line = this.under(at, event);
      if (line !== undefined) {
        this.surface.outline("");
        this.choose(line);
        return;
      }
    }
    // What was drawn in one go has both of its points.
    if (isMoved && this.points.length === 0 && this.wanted === 2) this.points = [pressed];
    this.add(at);
  }

  cancel(): void {
    const { held } = this;
    this.held = undefined;
    if (held?.isMoved === true) {
      this.photograph?.release_mark();
      this.photograph?.undo();
      this.show();
      this.page.draw();
    }
    this.clear();
  }

  leave(): void {
    this.cross = undefined;
    this.surface.magnify(undefined);
    this.draw();
  }

  key(event: KeyboardEvent): boolean {
    const step = ARROWS[event.key];
    const draws = this.wanted > 0;
    if (!draws && this.chosen !== undefined) return this.keyOnMark(event);
    if (step !== undefined && draws) {
      const by = event.shiftKey ? STEP.large : STEP.small;
      const { width, height } = this.surface;
      const from = this.cross ?? { x: width / 2, y: height / 2, width };
      const held = (at: number, most: number): number => Math.max(0, Math.min(most, at));
      this.cross = { x: held(from.x + step[0] * by, width), y: held(from.y + step[1] * by, height), width };
      this.magnify(this.cross);
      this.draw(this.cross);
      return true;
    }
    if ((event.key === "Enter" || event.key === " ") && draws) {
      const { width, height } = this.surface;
      const at = (this.cross ??= { x: width / 2, y: height / 2, width });
      const last = this.points.at(-1);
      if (this.tool === "front" && last !== undefined && last.x === at.x && last.y === at.y) this.closeOutline();
      else this.add(at);
      return true;
    }
    if (event.key === "Escape" && (this.cross !== undefined || this.points.length > 0)) {
      this.clear();
      return true;
    }
    if (event.key.toLowerCase() === "z") return false;
    return event.key === "Delete" || event.key === "Backspace" ? this.keyOnMark(event) : false;
  }

  /** Takes the last change of a mark back. */
  undo(): void {
    if (this.photograph?.undo() !== true) {
      this.page.say("There is no mark to undo.");
      return;
    }
    this.clear();
    this.changed();
    this.page.say("Undone in the photograph.");
  }

  /** Whether a press sets a point even where there is a mark: two ends of a wall may meet in one place. */
  private isSetting(): boolean {
    const isNewEnd = this.tool === "ends" && this.view?.marks.some(({ mark }) => mark === `end.${this.panel.end()}`) === false;
    return this.points.length === 1 || this.foot !== undefined || isNewEnd;
  }

  /** How many points the tool wants; none where it only moves what is there. */
  private get wanted(): number {
    if (this.tool === "things" && this.foot !== undefined) return 1;
    if (this.tool === "sheet") return this.view?.paper === undefined ? 2 : 0;
    return TOOLS[this.tool].points;
  }

  /** What the tool is used by, in a line. */
  private words(): string {
    return this.tool === "sheet" && this.wanted > 0 ? "Press two opposite corners of the sheet, or draw from one to the other." : TOOLS[this.tool].how;
  }

  private under(at: AtView, event: PointerEvent): string | undefined {
    const mark = this.photograph?.mark_under(at, event.pointerType === "touch" ? REACH.touch : REACH.other);
    return mark !== undefined && mark.startsWith(`${TOOLS[this.tool].marks}.`) ? mark : undefined;
  }

  private add(at: AtView): void {
    this.points.push(at);
    if (this.tool === "front") {
      this.draw(at);
      this.page.say(this.points.length < 3 ? "A point of the outline is set." : "A point of the outline is set; Enter once more on it closes the outline.");
      return;
    }
    if (this.points.length < this.wanted) {
      this.draw(at);
      this.page.say(TOOLS[this.tool].second);
      return;
    }
    const [from, to = from] = this.points;
    if (from === undefined || to === undefined) return;
    if (this.tool === "length") {
      this.draw(to);
      this.panel.askLength();
      this.page.say("Now type how long that is.");
      return;
    }
    this.clear();
    this.finish(from, to);
  }

  private finish(from: AtView, to: AtView): void {
    const { photograph } = this;
    if (photograph === undefined) return;
    switch (this.tool) {
      case "sheet":
        if (this.act(() => photograph.mark_sheet(from, to))) this.page.say("The sheet is marked. Say which paper it is, and drag its corners where they are off.");
        return;
      case "lines":
        this.act(() => photograph.add_line(from, to));
        return;
      case "ends":
        if (this.act(() => photograph.set_end(this.panel.end(), to))) this.panel.nextEnd(this.view?.marks ?? []);
        return;
      case "things":
        this.addThing(photograph, from, to);
    }
  }

  private addThing(photograph: RoomPhotograph, from: AtView, to: AtView): void {
    if (this.foot !== undefined) {
      const index = this.foot;
      this.foot = undefined;
      this.act(() => photograph.set_foot(index, to));
      return;
    }
    if (!this.act(() => photograph.add_thing(this.panel.kind(), from, to))) return;
    const index = (this.view?.things.length ?? 0) - 1;
    if (this.view?.things[index]?.stands !== true) return;
    this.foot = index;
    this.page.say("Now press where its front meets the floor; or type how deep it is.");
  }

  private addLength(text: string): void {
    const [from, to] = this.points;
    const { photograph } = this;
    if (from === undefined || to === undefined || photograph === undefined) {
      this.page.say("Press both ends of it in the photograph first.");
      return;
    }
    if (this.act(() => photograph.add_length(from, to, text))) {
      this.clear();
      this.panel.forgetLength();
    }
  }

  private closeOutline(): void {
    if (this.points.length < 3) {
      this.page.say("An outline has three points at least.");
      return;
    }
    this.paint();
  }

  private paint(): void {
    const path = new Float64Array(this.points.flatMap(({ x, y }) => [x, y]));
    const { width } = this.surface;
    const brush = this.cross === undefined ? this.panel.brush() : undefined;
    this.clear();
    this.act(() => this.photograph?.paint(path, width, brush, this.panel.hides()));
  }

  private choose(mark: string | undefined): void {
    if (mark === this.chosen) return;
    this.chosen = mark;
    if (mark === undefined) this.surface.magnify(undefined);
    else this.magnifyMark(mark);
    this.show();
    this.page.draw();
  }

  private remove(): void {
    const { chosen, photograph } = this;
    if (chosen === undefined || photograph === undefined) return;
    const words = this.view?.marks.find(({ mark }) => mark === chosen)?.words ?? "the mark";
    const isLine = chosen.startsWith("line.");
    if (!this.act(() => photograph.remove_mark(chosen))) return;
    const after = this.view?.marks.find(({ mark }) => mark === chosen);
    this.page.say(isLine && after !== undefined ? `${capital(after.words)}${after.left_out ? "" : " counts again"}.` : `Removed: ${words}.`);
  }

  private keyOnMark(event: KeyboardEvent): boolean {
    const { chosen, photograph } = this;
    if (chosen === undefined || photograph === undefined) return false;
    const step = ARROWS[event.key];
    if (step !== undefined) {
      if (chosen.startsWith("line.")) return false;
      this.act(() => photograph.nudge_mark(chosen, ...step, event.shiftKey));
      this.magnifyMark(chosen);
      return true;
    }
    if (event.key === "Delete" || event.key === "Backspace") {
      this.remove();
      return true;
    }
    if (event.key !== "Escape") return false;
    this.choose(undefined);
    return true;
  }

  /** Makes a change, and says what is wrong with it; whether it was made. */
  private act(change: () => Outcome | undefined): boolean {
    const error = change()?.error;
    this.changed();
    this.page.say(error === undefined ? "" : sentence(error));
    return error === undefined;
  }

  private changed(): void {
    this.show();
    this.page.marked();
    this.page.draw();
  }

  private clear(): void {
    this.points = [];
    this.pressed = undefined;
    this.cross = undefined;
    this.surface.magnify(undefined);
    this.surface.outline("");
  }

  private magnify(at: AtView): void {
    this.surface.magnify(at, (context, place) => this.photograph?.draw_loupe(context, place));
  }

  private magnifyMark(mark: string): void {
    const { width } = this.surface;
    const [x, y] = this.photograph?.place_of(mark, width) ?? [];
    if (x !== undefined && y !== undefined) this.magnify({ x, y, width });
  }

  /** Shows what is drawn so far, up to a place. */
  private draw(to?: AtView): void {
    const brush = this.tool === "front" && this.cross === undefined ? this.panel.brush() : undefined;
    if (brush !== undefined) {
      const points = this.points.length === 0 && to !== undefined ? [to, to] : this.points;
      this.surface.outline(path(points), 2 * brush);
      return;
    }
    const from = this.points[0] ?? this.pressed;
    const end = this.points.length >= 2 && this.tool !== "front" ? this.points[1] : to;
    const cross = to === undefined || this.pressed !== undefined ? "" : crossAt(to);
    if (from === undefined || end === undefined) {
      this.surface.outline(from === undefined ? cross : cross + crossAt(from));
      return;
    }
    if (this.tool === "front") this.surface.outline(path([...this.points, end]) + cross);
    else if (this.wanted === 1) this.surface.outline(crossAt(end));
    else if (TOOLS[this.tool].isBox === true) this.surface.outline(`M${from.x} ${from.y}H${end.x}V${end.y}H${from.x}Z${cross}`);
    else this.surface.outline(path([from, end]) + (from === end ? crossAt(from) : cross));
  }
}

function path(points: AtView[]): string {
  return points.map(({ x, y }, index) => `${index === 0 ? "M" : "L"}${x} ${y}`).join("");
}

/** A cross that leaves its own middle free. */
function crossAt({ x, y }: AtView): string {
  return `M${x - 14} ${y}H${x - 4}M${x + 4} ${y}H${x + 14}M${x} ${y - 14}V${y - 4}M${x} ${y + 4}V${y + 14}`;
}
