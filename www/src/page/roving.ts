// One Tab stop for several controls: arrows, Home and End go among them (WAI-ARIA Authoring Practices, roving tabindex).

const STEPS: Record<string, number | undefined> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1, Home: -Infinity, End: Infinity };

/** Whether an element is shown. */
function isShown(element: HTMLElement): boolean {
  return element.getClientRects().length > 0;
}

function isRadio(control: HTMLElement): control is HTMLInputElement {
  return control instanceof HTMLInputElement && control.type === "radio";
}

/** Controls of which one at a time is a Tab stop. */
export class Roving {
  private current: HTMLElement | undefined;

  constructor(
    private readonly place: HTMLElement,
    /** What the controls are. */
    private readonly selector: string,
    /** Whether a control has use for its arrows now. */
    private readonly isBusy: (control: HTMLElement) => boolean = () => false,
  ) {
    place.addEventListener("focusin", (event) => this.come(event.target));
    place.addEventListener("focusout", (event) => {
      if (!(event.relatedTarget instanceof Node && place.contains(event.relatedTarget))) this.refresh();
    });
    place.addEventListener("keydown", (event) => this.key(event), true);
    this.refresh();
  }

  /** Looks for controls that have come or gone. */
  refresh(): void {
    const controls = this.controls();
    const isUnchosen = (control: HTMLElement): boolean => isRadio(control) && !control.checked;
    // A browser skips a radio that is not chosen: it can't be the one that Tab comes to.
    const kept = this.current !== undefined && controls.includes(this.current) && !isUnchosen(this.current);
    if (!kept) this.current = controls.find((control) => !isUnchosen(control)) ?? controls[0];
    for (const control of controls) control.tabIndex = control === this.current ? 0 : -1;
  }

  private controls(): HTMLElement[] {
    return [...this.place.querySelectorAll<HTMLElement>(this.selector)];
  }

  private come(target: EventTarget | null): void {
    const control = target instanceof Element ? target.closest<HTMLElement>(this.selector) : null;
    if (control === null || !this.place.contains(control)) return;
    if (this.current && this.current !== control) this.current.tabIndex = -1;
    this.current = control;
    control.tabIndex = 0;
  }

  private key(event: KeyboardEvent): void {
    const step = STEPS[event.key];
    const control = event.target instanceof Element ? event.target.closest<HTMLElement>(this.selector) : null;
    if (step === undefined || control === null || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey || this.isBusy(control)) return;
    const shown = this.controls().filter((other) => isShown(other) && !(other instanceof HTMLButtonElement && other.disabled));
    const at = shown.indexOf(control);
    const next = Number.isFinite(step) ? (at + step + shown.length) % shown.length : step < 0 ? 0 : shown.length - 1;
    event.preventDefault();
    event.stopPropagation();
    const other = shown[next];
    other?.focus();
    // Among radios of one choice arrows choose, as everywhere.
    if (isRadio(control) && other !== undefined && isRadio(other) && other.name === control.name) other.click();
  }
}
