// The faces: the core carries them for its own lettering, and hands them to the page.

import type { Core } from "./core.js";

/** Gives the core's faces to the page. */
export function useFaces(core: Core): Promise<FontFace>[] {
  const loading: Promise<FontFace>[] = [];
  for (let index = 0; ; index += 1) {
    const face = core.font(index);
    if (!face) return loading;
    const data = core.font_data(index).slice();
    const font = new FontFace(face.family, data, { weight: face.weight, style: face.style });
    document.fonts.add(font);
    loading.push(font.load());
  }
}
