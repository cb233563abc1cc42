// The plan at work as the list of kept plans has it, without the document: each change makes the next state of one.

/** How the plan at work stands to the list. */
export interface AtWork {
  /** Which plan of the list it is; none of them until it is changed. */
  readonly id: string | null;
  /** The user's own plan, while that of a link is at work and has not been changed. */
  readonly own: string | undefined;
  /** When it was changed last, by this machine's clock. */
  readonly changed: number;
  /** Whether it has changes that are not in the list yet. */
  readonly isDue: boolean;
  /** Whether another window has changed it. */
  readonly isElsewhere: boolean;
}

/** At a start. */
export function firstAtWork(id: string | null, changed: number): AtWork {
  return { id, own: undefined, changed, isDue: false, isElsewhere: false };
}

/** It was changed in this window to this text. The very same state where it is the user's own again, which is kept already. */
export function edited(state: AtWork, text: string, now: number, fresh: string): AtWork {
  if (state.own === text) return state;
  // The plan of a link, once changed, is one beside the user's own.
  const id = state.own !== undefined || state.isElsewhere ? null : state.id;
  return { id: id ?? fresh, own: undefined, changed: later(state, now), isDue: true, isElsewhere: false };
}

/** The plan of a link comes to work: the user's own stays as it is. */
export function borrowed(state: AtWork, own: string): AtWork {
  return { ...state, own: state.own ?? own };
}

/** Another window has kept another text of the plan with this id; the very same state where that is another plan, or is known. */
export function keptElsewhere(state: AtWork, id: string | null, fresh: string): AtWork {
  if (state.isElsewhere || id === null || id !== state.id) return state;
  // What is not in the list yet does not go over what the other window keeps.
  return state.isDue ? { ...state, id: fresh } : { ...state, isElsewhere: true };
}

/** What was changed up to this time is in the list; what was changed meanwhile is still to come. */
export function listed(state: AtWork, changed: number): AtWork {
  return state.changed === changed ? { ...state, isDue: false } : state;
}

/** The plan of a start: that of last time, or one that is none of the list until it is changed. */
export function takenUp(state: AtWork, wasKept: boolean, fresh: string): AtWork {
  return { ...state, id: wasKept ? (state.id ?? fresh) : null, isElsewhere: false };
}

/**
 * What could be kept at once was changed at one time, what the list has at another; either may be unknown. Where the list has it
 * later, that one is to be opened, unless the plan was changed in this very moment: then it is a plan beside it.
 */
export function compared(state: AtWork, atOnce: number | undefined, inList: number | undefined, fresh: string): { state: AtWork; opens: boolean } {
  if (atOnce === undefined || inList === undefined || inList <= atOnce) return { state: { ...state, isDue: true }, opens: false };
  if (state.isDue) return { state: { ...state, id: fresh, isElsewhere: false }, opens: false };
  return { state, opens: true };
}

/** Another plan has come to work: one of the list, or one that is new. */
export function replaced(state: AtWork, id: string | null, now: number): AtWork {
  return { id, own: undefined, changed: later(state, now), isDue: false, isElsewhere: false };
}

/** A clock that is set back makes nothing older. */
function later({ changed }: AtWork, now: number): number {
  return Math.max(now, changed + 1);
}
