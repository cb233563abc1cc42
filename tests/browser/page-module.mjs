// Modules of the page that know no document, as Node runs them.

import path from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "../../www/node_modules/esbuild/lib/main.js";

const source = path.join(path.dirname(fileURLToPath(import.meta.url)), "../../www/src");

/**
 * One of the page's modules. Loading fails where it needs anything that only a browser has.
 * @param {string} name Such as `state.ts`.
 * @returns {Promise<unknown>}
 */
export async function pageModule(name) {
  const { outputFiles } = await build({ entryPoints: [path.join(source, name)], bundle: true, format: "esm", target: "es2022", write: false });
  const text = outputFiles[0]?.text ?? "";
  return import(`data:text/javascript;base64,${Buffer.from(text).toString("base64")}`);
}
