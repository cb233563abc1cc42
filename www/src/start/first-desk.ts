// The desk that the page opens on.

import type { Desk } from "../generated/overmantel.js";
import { keptPlan } from "../kept/local.js";
import { reason } from "../page/error.js";
import type { Core } from "./core.js";
import { firstDemoPlan } from "./demo.js";

/** A desk to begin with. */
export interface FirstDesk {
  desk: Desk;
  /** What there is to say of it. */
  said: string;
  /** Whether nothing was kept on this machine before. */
  isNew: boolean;
  /** Whether its plan is the one of last time. */
  isKept: boolean;
}

/** The desk with the plan of last time, or the demo, and with a list of one's own stock. */
export function firstDesk(core: Core, stock: string | undefined): FirstDesk {
  const first = withPlan(core);
  if (stock !== undefined) {
    const { error } = first.desk.open_stock(stock);
    if (error !== undefined) first.said += ` The list of your own stock can't be used: ${error}.`;
  }
  return first;
}

function withPlan(core: Core): FirstDesk {
  const kept = keptPlan();
  if (kept === null) {
    const demo = firstDemoPlan();
    return { desk: demo === undefined ? core.Desk.starting() : new core.Desk(demo), said: "", isNew: true, isKept: false };
  }
  const said = kept.isEarlier ? "The plan of last time broke the drawing; this is the one before it." : "";
  try {
    return { desk: new core.Desk(kept.text), said, isNew: false, isKept: !kept.isEarlier };
  } catch (error) {
    return { desk: core.Desk.starting(), said: `The plan kept from last time can't be opened: ${reason(error)}.`, isNew: false, isKept: false };
  }
}
