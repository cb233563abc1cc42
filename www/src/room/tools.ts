// The tools by which a photograph is marked, by names of the trade.

/** A tool. */
export type Tool = "sheet" | "lines" | "length" | "ends" | "things" | "front" | "light";

/** What a tool is. */
interface ToolEntry {
  words: string;
  /** How it is used, in a line. */
  how: string;
  /** How many points it wants; of an outline, any number. */
  points: number;
  /** What is said once the first of two is set. */
  second: string;
  /** The kind of the marks that it makes and moves. */
  marks: string;
  /** Whether two points are the corners of a rectangle. */
  isBox?: boolean;
  /** Whether the pieces are shown and not the marks. */
  showsPieces?: boolean;
}

/** All of them, in the order in which they help most. */
export const TOOLS: Record<Tool, ToolEntry> = {
  sheet: {
    words: "sheet",
    how: "Drag each corner to where the paper ends; the loupe shows it close up.",
    points: 2,
    second: "Now the opposite corner.",
    marks: "corner",
    isBox: true,
  },
  lines: {
    words: "lines",
    how: "Draw along an edge that is level or plumb: where the wall meets the floor, the side of a door. Leave out what is neither.",
    points: 2,
    second: "Now the other end of the edge.",
    marks: "line",
  },
  length: {
    words: "a length",
    how: "Press both ends of something flat on the wall that you have measured, then type its length.",
    points: 2,
    second: "Now its other end.",
    marks: "length",
  },
  ends: {
    words: "ends of the wall",
    how: "Choose an end of the wall, then press once where it is.",
    points: 1,
    second: "",
    marks: "end",
  },
  things: {
    words: "furniture and fittings",
    how: "Choose what it is, then press two opposite corners of its front; of what stands on the floor, also where its front meets that.",
    points: 2,
    second: "Now the opposite corner.",
    marks: "thing",
    isBox: true,
  },
  front: {
    words: "in front",
    how: "Paint over what stands in front of the pieces; the brush keeps to the edges that it finds.",
    points: Infinity,
    second: "",
    marks: "stroke",
    showsPieces: true,
  },
  light: {
    words: "light",
    how: "The pieces are shaded, and cast their shadows, by where the light comes from.",
    points: 0,
    second: "",
    marks: "light",
    showsPieces: true,
  },
};

/** Brushes by their words, in CSS pixels from the middle to the edge; without, an outline by points. */
export const BRUSHES: [string, number | undefined][] = [
  ["fine", 5],
  ["medium", 14],
  ["wide", 30],
  ["outline by points", undefined],
];

/** Whether a text names a tool. */
export function isTool(text: string): text is Tool {
  return text in TOOLS;
}
