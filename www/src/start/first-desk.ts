// The desk that the page opens on.

import type { Desk } from "../generated/overmantel.js";
import { isHandedOut, keptPlan, keptSteps, planChanged, type KeptPlan } from "../kept/local.js";
import { reason } from "../page/error.js";
import { inShort } from "../page/saying.js";
import type { Core } from "./core.js";
import { demoTexts, firstDemoPlan } from "./demo.js";
import { isInCentimetres, isMetric } from "./units.js";

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
  // A painter's own pictures are no demo, though they lie in the same place.
  if (!isHandedOut) first.desk.know_demo(demoTexts());
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
    return { desk: demo === undefined ? core.Desk.starting(isMetric(navigator.languages)) : new core.Desk(demo), said: "", isNew: true, isKept: false };
  }
  try {
    const desk = new core.Desk(kept.text);
    const steps = kept.isReload && !kept.isEarlier ? keptSteps() : null;
    if (steps !== null) desk.take_steps(steps);
    return { desk, said: saidOf(desk, kept), isNew: false, isKept: !kept.isEarlier };
  } catch (error) {
    const isInCm = isInCentimetres(kept.text) ?? isMetric(navigator.languages);
    return { desk: core.Desk.starting(isInCm), said: `The plan kept from last time can't be opened: ${reason(error)}.`, isNew: false, isKept: false };
  }
}

/** What there is to say of a plan that is taken up: which it is, unless this window had it already. */
function saidOf(desk: Desk, { isEarlier, isReload }: KeptPlan): string {
  if (isEarlier) return "Your last plan could not be drawn, so this is the one before it.";
  const changed = planChanged();
  if (isReload || changed === undefined) return "";
  const when = new Date(changed).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
  return `This is ${inShort(desk.view(undefined).title)}, last changed ${when}.`;
}
