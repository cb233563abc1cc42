// The page as it came, to be written again with something inside: the very same script and style, so that its policy holds.

/** Elements that have no end, and those whose text is taken as it stands. */
const EMPTY = new Set(["META", "INPUT", "BR", "LINK", "HR"]);
const RAW = new Set(["SCRIPT", "STYLE", "NOSCRIPT"]);
/** The id of the data that a page may have inside. */
const INSIDE = "proposal";
/** What a page with something inside does without: the demo, and what was inside before. */
const LEFT_OUT = `#${INSIDE}, .demo-picture, .demo-plan`;

/** A part of the page: markup, the place of its title or of what is inside, or an element whose text is taken when it is written. */
type Part = string | Blob | Element | { place: "title" | "inside" };

const parts: Part[] = [];

/** Keeps the page as it is before anything in it is changed; the longest texts stay where they are, or out of memory. */
export function keepSource(): void {
  parts.push("<!doctype html>\n");
  keep(document.documentElement);
}

/** What was put inside this page, if anything was. */
export function inside(): string | null {
  return document.getElementById(INSIDE)?.textContent ?? null;
}

/** The page with data inside, without the demo. The data has no `<` in it. */
export function pageWith(title: string, data: string): Blob {
  if (data.includes("<")) throw new Error("The data would end its own element.");
  const written = parts.map((part) => {
    if (typeof part === "string" || part instanceof Blob) return part;
    if (part instanceof Element) return part.textContent ?? "";
    return part.place === "title" ? escaped(title) : `<script type="application/json" id="${INSIDE}">${data}</script>\n`;
  });
  return new Blob(written, { type: "text/html" });
}

function keep(element: Element): void {
  if (element.matches(LEFT_OUT)) return;
  // The script that runs; the others are data.
  if (element instanceof HTMLScriptElement && element.type === "") parts.push({ place: "inside" });
  const attributes = [...element.attributes].map(({ name, value }) => ` ${name}="${escaped(value).replaceAll('"', "&quot;")}"`);
  parts.push(`<${element.localName}${attributes.join("")}>`);
  if (EMPTY.has(element.tagName)) return;
  if (element instanceof HTMLTitleElement) parts.push({ place: "title" });
  // The core is taken out of the page when it has been read.
  else if (element.id === "core") parts.push(new Blob([element.textContent ?? ""]));
  else if (RAW.has(element.tagName)) parts.push(element);
  else {
    for (const child of element.childNodes) {
      if (child instanceof Element) keep(child);
      else if (child instanceof Text) parts.push(escaped(child.data));
    }
  }
  parts.push(`</${element.localName}>`);
}

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;");
}
