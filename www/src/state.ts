// The page's state besides the plan, without the document: a change makes the next state of one, and what the page says of it follows.

/** What a drag on the drawing moves. */
export type Drags = "pieces" | "picture";

/** How much of the specification is told: what a buyer decides, or all that a maker needs. */
export type Depth = "short" | "full";

/** The state of the page. */
export interface State {
  /** How many pieces the plan has. */
  readonly pieces: number;
  /** The piece that is described; none for all. */
  readonly piece: number | undefined;
  /** Whether the room is shown from the viewer's place, and not the wall flat. */
  readonly oblique: boolean;
  /** Whether the pieces are shown in a photograph of the room, and the wall is not drawn at all. */
  readonly photographed: boolean;
  /** The field whose figure on the drawing has the focus. */
  readonly chosen: string | undefined;
  /** What is being dragged, by the name of its handle. */
  readonly held: string | undefined;
  readonly drags: Drags;
  /** The piece whose picture was touched last. */
  readonly touched: number;
  /** What on the drawing has been pressed and can be moved, by the name of its handle; a piece as `piece.` with its number. */
  readonly pressed: string | undefined;
  readonly depth: Depth;
  /** Whether the drawing alone fills the screen, without lines. */
  readonly clean: boolean;
  /** The list of one's own stock that is in use, as a file. */
  readonly stock: string | undefined;
}

/** Something that happens to the state. */
export type Change =
  /** The plan has so many pieces now. */
  | { kind: "counted"; pieces: number }
  | { kind: "described"; piece: number | undefined }
  | { kind: "viewed"; oblique: boolean; photographed?: boolean }
  | { kind: "chosen"; field: string | undefined }
  | { kind: "taken"; handle: string }
  | { kind: "dropped" }
  | { kind: "dragging"; drags: Drags }
  | { kind: "touched"; piece: number }
  | { kind: "pressed"; on: string | undefined }
  | { kind: "told"; depth: Depth }
  | { kind: "cleared"; clean: boolean }
  | { kind: "stocked"; stock: string | undefined };

/** The state at a start. */
export function firstState(stock: string | undefined, depth: Depth): State {
  return { pieces: 1, piece: undefined, oblique: false, photographed: false, chosen: undefined, held: undefined, drags: "pieces", touched: 0, pressed: undefined, depth, clean: false, stock };
}

/** The state after a change; the very same one where nothing is changed. */
export function changed(state: State, change: Change): State {
  const next = { ...state, ...parts(state, change) };
  const isSame = (Object.keys(next) as (keyof State)[]).every((key) => next[key] === state[key]);
  return isSame ? state : next;
}

function parts(state: State, change: Change): Partial<State> {
  switch (change.kind) {
    case "counted": {
      const { pieces } = change;
      // A piece that is no more is not described.
      const isThere = state.piece !== undefined && state.piece < pieces;
      const isPressed = !state.pressed?.startsWith("piece.") || Number(state.pressed.slice(6)) < pieces;
      return { pieces, piece: isThere ? state.piece : undefined, pressed: isPressed ? state.pressed : undefined };
    }
    case "described":
      return { piece: change.piece };
    case "viewed":
      return { oblique: change.oblique, photographed: change.photographed ?? false };
    case "chosen":
      return { chosen: change.field };
    case "taken":
      // One thing at a time.
      return state.held === undefined ? { held: change.handle } : {};
    case "dropped":
      return { held: undefined };
    case "dragging":
      return { drags: change.drags };
    case "touched":
      return { touched: change.piece };
    case "pressed":
      return { pressed: change.on };
    case "told":
      return { depth: change.depth };
    case "cleared":
      return { clean: change.clean };
    case "stocked":
      return { stock: change.stock };
  }
}

/** Whether a piece was chosen to be changed alone. */
export function isAlone(state: State): boolean {
  return state.piece !== undefined;
}

/** What the table of sizes is of. */
export function caption({ pieces, piece }: State): string {
  if (pieces === 1) return "The piece";
  return piece === undefined ? "Each piece (the first, where they differ)" : `Piece ${piece + 1}`;
}

/** The pieces that can be chosen to be described, in words, after all of them; none where there is only one. */
export function describable({ pieces }: State): string[] {
  return pieces < 2 ? [] : ["all of them", "the first", "the second", "the third"].slice(0, pieces + 1);
}

/** Words as they stand within a sentence. */
export function uncapitalised(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1);
}

/** Words as they begin a sentence. */
export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** The state that the page is in. */
export class PageState {
  constructor(private state: State) {}

  /** As it is now. */
  get now(): State {
    return this.state;
  }

  /** Makes a change; whether it changed anything. */
  change(change: Change): boolean {
    const before = this.state;
    this.state = changed(before, change);
    return this.state !== before;
  }
}
