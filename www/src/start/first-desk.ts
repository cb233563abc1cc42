// The desk that the page opens on.

import type { Desk } from "../generated/overmantel.js";
import { isHandedOut, keptSteps, planChanged, type KeptPlan } from "../kept/local.js";
import { reason } from "../page/error.js";
import { inShort } from "../page/saying.js";
import type { Core, Hold } from "./core.js";
import { demoTexts, firstDemoPlan } from "./demo.js";
import { isInCentimetres, isMetric } from "./units.js";

/** A desk to begin with. */
export interface FirstDesk {
  desk: Desk;
  /** Whether nothing was kept on this machine before. */
  isNew: boolean;
  /** Whether its plan is the one of last time. */
  isKept: boolean;
  /** Does what the first drawing can do without; what there is to say of the desk. */
  complete(): string;
}

/** The desk with the plan of last time, or the demo, and with a list of one's own stock. */
export function firstDesk(core: Core, hold: Hold, kept: KeptPlan | null, stock: string | undefined): FirstDesk {
  const first = withPlan(core, hold, kept);
  const { desk } = first;
  const error = stock === undefined ? undefined : desk.open_stock(stock).error;
  const complete = (): string => {
    // A painter's own pictures are no demo, though they lie in the same place.
    if (!isHandedOut) desk.know_demo(demoTexts());
    const said = first.complete();
    return error === undefined ? said : `${said} The list of your own stock can't be used: ${error}.`;
  };
  return { ...first, complete };
}

function withPlan(core: Core, hold: Hold, kept: KeptPlan | null): FirstDesk {
  if (kept === null) {
    const demo = firstDemoPlan();
    return { desk: hold(demo === undefined ? core.Desk.starting(isMetric(navigator.languages)) : new core.Desk(demo)), isNew: true, isKept: false, complete: () => "" };
  }
  try {
    const desk = hold(new core.Desk(kept.text));
    const complete = (): string => {
      const steps = kept.isReload && !kept.isEarlier ? keptSteps() : null;
      if (steps !== null) desk.take_steps(steps);
      return saidOf(desk, kept);
    };
    return { desk, isNew: false, isKept: !kept.isEarlier, complete };
  } catch (error) {
    // What the core's first part lacks is no fault of the plan.
    if (error instanceof WebAssembly.RuntimeError) throw error;
    const isInCm = isInCentimetres(kept.text) ?? isMetric(navigator.languages);
    const said = `The plan kept from last time can't be opened: ${reason(error)}.`;
    return { desk: hold(core.Desk.starting(isInCm)), isNew: false, isKept: false, complete: () => said };
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
