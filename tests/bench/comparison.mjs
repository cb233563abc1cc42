// The same scene, drawn by the core and by the browser's own canvas, in one page and in turn.
//
// The canvas draws it in two ways: plainly, as the browser's own caches have it, and with the caches that a careful author would
// give it, where the room and each finished piece are kept as canvases, as the core keeps them. Both sides end by reading one pixel,
// so that nothing is left in a queue. After a change of size the canvas gets pictures that it has not seen before: the browser keeps
// reductions of those that it has.

import initialise, { Desk, RoomPhotograph } from "../../www/src/generated/overmantel.js";

const ROUNDS = 41;

/** @param {string} text */
const bytes = (text) => Uint8Array.from(atob(text), (character) => character.charCodeAt(0));

/** @typedef {{name: string, one: number[], other: number[]}} Pair The times of two jobs, done in turn. */

/**
 * @param {{wasm: string, picture: string, plan: string, threePlan: string, width: number, height: number}} parts
 * @returns {Promise<Pair[]>}
 */
export async function run(parts) {
  await initialise({ module_or_path: bytes(parts.wasm) });
  const { width, height } = parts;
  const size = { width, height };
  const file = new Blob([bytes(parts.picture)]);
  const bitmap = await createImageBitmap(file);
  const core = coreSide(parts.plan, bitmap, size);
  const canvas = canvasSide(core.bench, bitmap, size);
  const dragged = [
    await pair("drag, core / canvas as plainly written", core.drag, canvas.dragPlainly, core.hold),
    await pair("drag, core / canvas with kept pieces", core.drag, canvas.drag, core.hold),
  ];
  core.letGo();
  const pairs = [
    ...dragged,
    await pair("size of all pictures, core / canvas with fresh pictures", core.resize, canvas.resize, async () => canvas.use(await createImageBitmap(file))),
    await pair("size of all pictures, core / canvas that knows the pictures", core.resize, canvas.resize),
    await pair("whole room and all pieces, core / canvas", core.repaint, canvas.repaint),
  ];
  const [large, small] = [PICTURES.large, PICTURES.small].map((px) => threePictures(parts.threePlan, px, size));
  if (large && small) {
    const hold = () => [large.hold(), small.hold()];
    pairs.push(await pair("drag, three pictures of 100 / of 1 megapixel", large.drag, small.drag, hold));
    large.letGo();
    small.letGo();
    pairs.push(await pair("resize, three pictures of 100 / of 1 megapixel", large.resize, small.resize));
  }
  return pairs;
}

/**
 * How long a photograph of a room takes: to find its sheet and lines, to be made ready with the pieces in it, and to be drawn again while
 * the pieces are dragged, 1600 pixels across.
 * @param {{wasm: string, plan: string, picture: string, photograph: string}} parts
 * @returns {Promise<{name: string, times: number[]}[]>}
 */
export async function photographed(parts) {
  await initialise({ module_or_path: bytes(parts.wasm) });
  const bitmap = await createImageBitmap(new Blob([bytes(parts.photograph)]));
  const { width, height } = bitmap;
  const context = new OffscreenCanvas(width, height).getContext("2d", { willReadFrequently: true });
  if (!context) return [];
  context.drawImage(bitmap, 0, 0);
  const pixels = new Uint8Array(context.getImageData(0, 0, width, height).data.buffer);
  const desk = coreSide(parts.plan, await createImageBitmap(new Blob([bytes(parts.picture)])), { width, height }).bench;
  const canvas = document.createElement("canvas");
  const target = canvas.getContext("2d");
  if (!target) return [];
  const sheet = { most_px: 1600, pixel_ratio: 1 };
  /** @type {Record<"found" | "ready" | "dragged", number[]>} */
  const times = { found: [], ready: [], dragged: [] };
  /** @type {RoomPhotograph | undefined} */
  let room;
  for (let round = 0; round < 9; round += 1) {
    room?.free();
    times.found.push(timed(() => (room = RoomPhotograph.found(width, height, pixels, 27))));
    times.ready.push(timed(() => room?.draw(desk, target, sheet)));
  }
  // The middle piece is near the middle of the sheet, where pieces are hung at first.
  const [x = 0, y = 0] = room?.place_of("corner.2", width) ?? [];
  if (!room?.take(desk, { x: x - 20, y: y - 20, width })) throw new Error("no piece hangs at the sheet");
  for (let round = 0; round < ROUNDS; round += 1) {
    const at = { x: x - 20 + (round % 7) * 9, y: y - 20 + (round % 5) * 6, width };
    times.dragged.push(
      timed(() => {
        room?.drag_to(desk, at, true);
        room?.draw(desk, target, sheet);
        target.getImageData(0, 0, 1, 1);
      }),
    );
  }
  desk.release();
  return [
    { name: "sheet and lines found", times: times.found },
    { name: "light read and pieces drawn", times: times.ready },
    { name: "drawn again while dragged", times: times.dragged },
  ];
}

/**
 * How long suggestions take, and of how many combinations: for what is on offer, and for more and more sizes.
 * @param {{wasm: string, threePlan: string}} parts
 * @returns {Promise<{sizes: string, times: number[], said: string}[]>}
 */
export async function suggestions(parts) {
  await initialise({ module_or_path: bytes(parts.wasm) });
  const bench = new Desk(parts.threePlan);
  const measured = [];
  for (const count of [0, 10, 20, 40, 80, 160]) {
    const row = (/** @type {unknown} */ _, /** @type {number} */ index) => ({
      name: `size ${index}`,
      series: "made up",
      system: "inches",
      size: [`${8 + (index % 20)} in`, `${10 + (index % 20) + Math.floor(index / 20) * 2} in`],
      print: true,
      frame: true,
    });
    const sizes = count === 0 ? undefined : { replace: Array.from({ length: count }, row) };
    taken(bench.open_stock(JSON.stringify({ overmantel_stock: 1, sizes })));
    const times = [];
    let said = "";
    for (let round = 0; round < 15; round += 1) {
      // By its place: "more", "as usual".
      taken(bench.wish("size", round % 2 ? "2" : "1"));
      times.push(timed(() => ({ said } = bench.suggested())));
    }
    measured.push({ sizes: count === 0 ? "what is on offer" : `${count} sizes`, times, said });
  }
  return measured;
}

/**
 * What the core did not take would be measured as nothing done.
 * @param {{error?: string | undefined}} outcome
 */
function taken({ error }) {
  if (error !== undefined) throw new Error(error);
}

/** Pictures of 100 and of 1 megapixel: their files' size, and that of the copy which the page makes of them. */
const PICTURES = {
  large: { file: [12248, 8165], copy: [2400, 1600] },
  small: { file: [1224, 816], copy: [1224, 816] },
};

/**
 * @param {string} name
 * @param {(round: number) => void} one
 * @param {(round: number) => void} other
 * @param {() => unknown} before Made ready outside of the times.
 * @returns {Promise<Pair>}
 */
async function pair(name, one, other, before = () => undefined) {
  /** @type {Pair} */
  const times = { name, one: [], other: [] };
  for (let round = -3; round < ROUNDS; round += 1) {
    await before();
    const a = timed(() => one(round));
    const b = timed(() => other(round));
    if (round >= 0) {
      times.one.push(a);
      times.other.push(b);
    }
  }
  return times;
}

/** @param {() => void} act */
function timed(act) {
  const start = performance.now();
  act();
  return performance.now() - start;
}

/** @param {{width: number, height: number}} size */
function surface({ width, height }) {
  const canvas = document.createElement("canvas");
  canvas.width = width;
  canvas.height = height;
  document.body.append(canvas);
  const context = canvas.getContext("2d", { alpha: false });
  if (!context) throw new Error("no canvas");
  return { context, flush: () => context.getImageData(0, 0, 1, 1) };
}

/**
 * @param {string} plan
 * @param {ImageBitmap} bitmap
 * @param {{width: number, height: number}} size
 */
function coreSide(plan, bitmap, size) {
  const reader = new OffscreenCanvas(bitmap.width, bitmap.height).getContext("2d");
  reader?.drawImage(bitmap, 0, 0);
  const data = reader?.getImageData(0, 0, bitmap.width, bitmap.height).data;
  const bench = new Desk(plan);
  bench.put_copy("Low water, evening", bitmap.width, bitmap.height, new Uint8Array(data?.buffer ?? new ArrayBuffer(0)));
  return jobs(bench, size);
}

/**
 * A desk with three pictures whose copies are noise.
 * @param {string} plan
 * @param {{file: number[], copy: number[]}} px
 * @param {{width: number, height: number}} size
 */
function threePictures(plan, { file, copy }, size) {
  const stated = JSON.parse(plan);
  for (const picture of stated.pictures) picture.pixels = file;
  const bench = new Desk(JSON.stringify(stated));
  const [width = 1, height = 1] = copy;
  for (const picture of stated.pictures) {
    const noise = Uint8Array.from({ length: width * height * 4 }, (_, index) => (index % 4 === 3 ? 255 : (index * 2654435761) >>> 24));
    bench.put_copy(picture.name, width, height, noise);
  }
  return jobs(bench, size);
}

/**
 * @param {Desk} bench
 * @param {{width: number, height: number}} size
 */
function jobs(bench, size) {
  const { context, flush } = surface(size);
  const sheet = { width_px: size.width, height_px: size.height, pixel_ratio: 1, dark: false, oblique: false, clean: false, chosen: undefined };
  const drawn = bench.draw(context, sheet);
  const group = drawn.handles[0]?.place;
  if (!group) throw new Error("no group");
  const at = { x: group.x + group.width / 6, y: group.y + group.height / 2 };
  return {
    bench,
    /** Takes hold of the group. */
    hold() {
      bench.abandon();
      bench.take("group", false, at.x, at.y);
    },
    letGo() {
      bench.abandon();
    },
    /** @param {number} round */
    drag(round) {
      bench.drag_to(at.x + 40 + round * 2, at.y - 20, false);
      bench.redraw(context, sheet);
      flush();
    },
    /** @param {number} round */
    resize(round) {
      taken(bench.set("piece.all.image", round % 2 ? "15 x 19" : "16 x 20"));
      bench.draw(context, sheet);
      flush();
    },
    /** @param {number} round */
    repaint(round) {
      // A new paint repaints the room; a new mat repaints the pieces.
      taken(bench.set("wall.paint", round % 2 ? "grey-green" : "stone"));
      taken(bench.set("piece.all.mat.colour", round % 2 ? "warm white" : "cream"));
      bench.draw(context, sheet);
      flush();
    },
  };
}

/**
 * @param {Desk} bench
 * @param {ImageBitmap} first
 * @param {{width: number, height: number}} size
 */
function canvasSide(bench, first, size) {
  const { context, flush } = surface(size);
  const probe = surface(size);
  let bitmap = first;
  const drawn = bench.draw(probe.context, { width_px: size.width, height_px: size.height, pixel_ratio: 1, dark: false, oblique: false, clean: false, chosen: undefined });
  const [group, sofa] = drawn.handles.map((handle) => handle.place);
  if (!group || !sofa) throw new Error("no handles");
  // 12' of wall; pieces of 21 1/8 × 25 1/8 in, 3 in apart; mat opening 15 3/4 × 19 3/4.
  const scale = group.width / 69.375;
  const wall = { x: group.x - 37.3125 * scale, y: sofa.y + sofa.height - 96 * scale, width: 144 * scale, height: 96 * scale };

  /**
   * @param {number} width
   * @param {number} height
   * @param {(c: OffscreenCanvasRenderingContext2D) => void} paint
   */
  const kept = (width, height, paint) => {
    const canvas = new OffscreenCanvas(width, height);
    const c = canvas.getContext("2d", { alpha: false });
    if (!c) throw new Error("no canvas");
    paint(c);
    return canvas;
  };

  /**
   * @param {CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D} c
   * @param {string} paint
   */
  const paintRoom = (c, paint) => {
    c.fillStyle = "#f7f4ec";
    c.fillRect(0, 0, size.width, size.height);
    const light = c.createLinearGradient(wall.x, wall.y, wall.x + wall.width * 0.4, wall.y + wall.height);
    light.addColorStop(0, paint);
    light.addColorStop(1, "#c9cec9");
    c.fillStyle = light;
    c.fillRect(wall.x, wall.y, wall.width, wall.height);
    c.fillStyle = "#eeeae0";
    c.fillRect(wall.x, wall.y + wall.height - 4 * scale, wall.width, 4 * scale);
    for (let board = 0; board * 5 < 144; board += 1) {
      c.fillStyle = board % 2 ? "#a58363" : "#9d7c5e";
      c.fillRect(wall.x + board * 5 * scale, wall.y + wall.height, 5 * scale, 19);
    }
    c.shadowColor = "rgb(0 0 0 / 0.4)";
    c.shadowBlur = 30;
    c.shadowOffsetX = 15;
    c.shadowOffsetY = 30;
    const part = (/** @type {number[]} */ [x, y, width, height], /** @type {string} */ colour, /** @type {number} */ radius) => {
      c.fillStyle = colour;
      c.beginPath();
      c.roundRect(sofa.x + (x ?? 0) * sofa.width, sofa.y + (y ?? 0) * sofa.height, (width ?? 0) * sofa.width, (height ?? 0) * sofa.height, radius * scale);
      c.fill();
    };
    part([0.04, 0, 0.92, 0.85], "#5d6c6f", 5);
    c.shadowColor = "transparent";
    part([0.1, 0.04, 0.395, 0.54], "#6a7a7d", 3.5);
    part([0.505, 0.04, 0.395, 0.54], "#6a7a7d", 3.5);
    part([0.1, 0.46, 0.395, 0.25], "#72838a", 2);
    part([0.505, 0.46, 0.395, 0.25], "#72838a", 2);
    part([0.05, 0.7, 0.9, 0.15], "#5a696c", 1);
    part([0, 0.3, 0.1, 0.55], "#65757a", 4);
    part([0.9, 0.3, 0.1, 0.55], "#65757a", 4);
    part([0.05, 0.85, 0.025, 0.15], "#3a2c22", 0);
    part([0.92, 0.85, 0.025, 0.15], "#3a2c22", 0);
  };
  /** @param {string} paint */
  const room = (paint) => kept(size.width, size.height, (c) => paintRoom(c, paint));

  /**
   * @param {CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D} c
   * @param {number} index
   * @param {{w: number, h: number, mat: string}} made
   */
  const paintPiece = (c, index, { w, h, mat }) => {
    c.fillStyle = mat;
    c.fillRect(0, 0, w, h);
    c.imageSmoothingEnabled = true;
    c.imageSmoothingQuality = "high";
    const [sw, sh] = [bitmap.width / 3.3, bitmap.height];
    c.drawImage(bitmap, index * (bitmap.width - sw) * 0.5, 0, sw, sh, 2.6875 * scale, 2.6875 * scale, w - 5.375 * scale, h - 5.375 * scale);
    const ring = (/** @type {number} */ outer, /** @type {number} */ inner, /** @type {string[]} */ colours) => {
      const [o, i] = [outer * scale, inner * scale];
      const corners = [[o, o, i, i], [w - o, o, w - i, i], [w - o, h - o, w - i, h - i], [o, h - o, i, h - i]];
      for (let side = 0; side < 4; side += 1) {
        const [a, b] = [corners[side] ?? [], corners[(side + 1) % 4] ?? []];
        c.fillStyle = colours[side] ?? "#000";
        c.beginPath();
        c.moveTo(a[0] ?? 0, a[1] ?? 0);
        c.lineTo(b[0] ?? 0, b[1] ?? 0);
        c.lineTo(b[2] ?? 0, b[3] ?? 0);
        c.lineTo(a[2] ?? 0, a[3] ?? 0);
        c.closePath();
        c.fill();
      }
    };
    ring(2.625, 2.6875, ["#cfcdc8", "#f5f4f0", "#fdfcf8", "#dddbd6"]);
    ring(0, 0.15, ["#43321f", "#2f221a", "#2b1f17", "#3f2f22"]);
    ring(0.15, 0.6, ["#3d2d21", "#392a1f", "#382a1f", "#3c2c20"]);
    ring(0.6, 0.75, ["#2d2018", "#3d2d21", "#3f2e22", "#31241b"]);
    const shade = c.createLinearGradient(0, 0.75 * scale, 0, 1.3 * scale);
    shade.addColorStop(0, "rgb(0 0 0 / 0.3)");
    shade.addColorStop(1, "rgb(0 0 0 / 0)");
    c.fillStyle = shade;
    c.fillRect(0.75 * scale, 0.75 * scale, w - 1.5 * scale, 0.55 * scale);
  };
  /**
   * @param {number} width Of the image, in inches.
   * @param {number} height Of the image, in inches.
   * @param {string} mat
   */
  const pieces = (width, height, mat) => {
    const made = { w: (width + 5.125) * scale, h: (height + 5.125) * scale, mat };
    return [0, 1, 2].map((index) => kept(Math.round(made.w), Math.round(made.h), (c) => paintPiece(c, index, made)));
  };

  const usual = { paint: "#d5dcd6", mat: "#f3eee1" };
  let held = { room: room(usual.paint), pieces: pieces(16, 20, usual.mat) };

  const shadow = () => {
    context.shadowColor = "rgb(0 0 0 / 0.5)";
    context.shadowBlur = 1.125 * scale * 0.84;
    context.shadowOffsetX = 1.125 * scale * 0.35;
    context.shadowOffsetY = 1.125 * scale * 0.7;
  };

  /**
   * @param {number} dx
   * @param {number} dy
   */
  const draw = (dx, dy) => {
    context.drawImage(held.room, 0, 0);
    held.pieces.forEach((made, index) => {
      shadow();
      context.drawImage(made, Math.round(group.x + dx + index * (made.width + 3 * scale)), Math.round(group.y + dy));
      context.shadowColor = "transparent";
    });
    lines(dx, dy);
    flush();
  };

  /**
   * Everything anew, as a program draws that keeps nothing.
   * @param {number} dx
   * @param {number} dy
   */
  const drawPlainly = (dx, dy) => {
    paintRoom(context, usual.paint);
    const made = { w: 21.125 * scale, h: 25.125 * scale, mat: usual.mat };
    for (const index of [0, 1, 2]) {
      context.save();
      context.translate(group.x + dx + index * (made.w + 3 * scale), group.y + dy);
      shadow();
      context.fillRect(0, 0, made.w, made.h);
      context.shadowColor = "transparent";
      paintPiece(context, index, made);
      context.restore();
    }
    lines(dx, dy);
    flush();
  };

  /**
   * The same number of dimension lines, with ticks, extension lines and labels.
   * @param {number} dx
   * @param {number} dy
   */
  const lines = (dx, dy) => {
    context.strokeStyle = "#24323a";
    context.fillStyle = "#24323a";
    context.font = "14.5px sans-serif";
    context.textAlign = "center";
    context.textBaseline = "middle";
    const foot = wall.y + wall.height;
    const horizontal = [
      [wall.x, wall.x + wall.width, wall.y - 20, "12′ 0″"],
      [wall.x, group.x + dx, foot + 40, "3′ 1⁵⁄₁₆″"],
      [group.x + dx, group.x + dx + group.width, foot + 40, "group 5′ 9³⁄₈″"],
      [group.x + dx + group.width, wall.x + wall.width, foot + 40, "3′ 1⁵⁄₁₆″"],
      [sofa.x, sofa.x + sofa.width, foot + 68, "sofa 7′ 0″"],
      [group.x + dx, group.x + dx + 21.125 * scale, group.y + dy - 12, "21¹⁄₈″"],
      [group.x + dx + 21.125 * scale, group.x + dx + 24.125 * scale, group.y + dy - 12, "3″"],
    ];
    const vertical = [
      [wall.y, foot, wall.x - 20, "8′ 0″"],
      [group.y + dy + group.height / 2, foot, wall.x + wall.width + 20, "centre 54⁹⁄₁₆″"],
      [group.y + dy + group.height, sofa.y, group.x + dx + group.width + 18, "8″"],
      [sofa.y, foot, sofa.x - 18, "34″"],
      [group.y + dy, group.y + dy + group.height, group.x + dx - 18, "25¹⁄₈″"],
    ];
    const stroke = (/** @type {number} */ x1, /** @type {number} */ y1, /** @type {number} */ x2, /** @type {number} */ y2) => {
      context.beginPath();
      context.moveTo(x1, y1);
      context.lineTo(x2, y2);
      context.stroke();
    };
    for (const [from, to, at, label] of /** @type {[number, number, number, string][]} */ (horizontal)) {
      stroke(from, at, to, at);
      for (const end of [from, to]) {
        stroke(end, at - 5, end, at + 12);
        stroke(end - 4, at + 4, end + 4, at - 4);
      }
      context.fillText(label, (from + to) / 2, at);
    }
    for (const [from, to, at, label] of /** @type {[number, number, number, string][]} */ (vertical)) {
      stroke(at, from, at, to);
      for (const end of [from, to]) {
        stroke(at - 5, end, at + 12, end);
        stroke(at - 4, end + 4, at + 4, end - 4);
      }
      context.save();
      context.translate(at, (from + to) / 2);
      context.rotate(-Math.PI / 2);
      context.fillText(label, 0, 0);
      context.restore();
    }
  };

  return {
    /**
     * Draws with another picture from now on.
     * @param {ImageBitmap} fresh
     */
    use(fresh) {
      if (bitmap !== first) bitmap.close();
      bitmap = fresh;
    },
    /** @param {number} round */
    drag(round) {
      draw(40 + round * 2, -20);
    },
    /** @param {number} round */
    dragPlainly(round) {
      drawPlainly(40 + round * 2, -20);
    },
    /** @param {number} round */
    resize(round) {
      const [width, height] = round % 2 ? [15, 19] : [16, 20];
      held = { ...held, pieces: pieces(width ?? 16, height ?? 20, usual.mat) };
      draw(0, 0);
    },
    /** @param {number} round */
    repaint(round) {
      const [paint, mat] = round % 2 ? [usual.paint, usual.mat] : ["#b9b2a3", "#eadec3"];
      held = { room: room(paint ?? ""), pieces: pieces(16, 20, mat ?? "") };
      draw(0, 0);
    },
  };
}
