// Where the page is: `cargo verify` names it in the environment; otherwise it is the page last built.

import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const folder = path.dirname(fileURLToPath(import.meta.url));

/** The page's own address, without a fragment. */
export const pageAddress = pathToFileURL(process.env.OVERMANTEL_PAGE ?? path.join(folder, "../../www/dist/overmantel.html")).href;
