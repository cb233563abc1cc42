// A fault of the core: what was typed is kept, and the page begins again with the last plan that it drew.

import { markBroken } from "../kept/local.js";
import { known, make } from "./dom.js";

/** Says so when the core fails. */
export function watchForFaults(): void {
  addEventListener("error", (event) => tell(event.error));
  addEventListener("unhandledrejection", (event) => tell(event.reason));
}

function tell(fault: unknown): void {
  if (!(fault instanceof WebAssembly.RuntimeError)) return;
  markBroken();
  const notice = known("notice");
  notice.hidden = false;
  notice.replaceChildren(
    "Something in this plan broke the drawing. The version before it is kept; ",
    make("a", { href: "" }, "open that one"),
    ".",
  );
  notice.scrollIntoView();
}
