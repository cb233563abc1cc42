// The page as it came, to be written again with something inside: the very same script and style, so that its policy holds.

/** Elements that have no end, and those whose text is taken as it stands. */
const EMPTY = new Set(["META", "INPUT", "BR", "LINK", "HR"]);
const RAW = new Set(["SCRIPT", "STYLE", "NOSCRIPT"]);
/** The id of a proposal that a page may have inside. */
const INSIDE = "proposal";
/** What a page with something inside does without: the demo, and what was inside before. */
const LEFT_OUT = `#${INSIDE}, .demo-picture, .demo-plan, .demo-prices, #own-stock, #own-prices`;

/** A part of the page: markup, the place of its title, of what is inside or of the core, or an element whose text is taken when it is written. */
type Part = string | Element | { place: "title" | "inside" | "core" };

const parts: Part[] = [];

/** Keeps the page as it is before anything in it is changed; of the longest texts no copies are made. */
export function keepSource(): void {
  parts.push("<!doctype html>\n");
  keep(document.documentElement);
}

/** The proposal that was put inside this page, if one was. */
export function inside(): string | null {
  return document.getElementById(INSIDE)?.textContent ?? null;
}

/** What the studio whose page this is offers: its list of stock or its price book, as a file. */
export function ofStudio(what: "stock" | "prices"): string | undefined {
  return document.getElementById(`own-${what}`)?.textContent ?? undefined;
}

/** The page with blocks of data inside, without the demo. A studio's list of stock stays, unless there is another. */
export function pageWith(title: string, blocks: string): Blob {
  const own = blocks.includes('id="own-stock"') ? undefined : ofStudio("stock");
  const stock = own === undefined ? "" : `<script type="application/json" id="own-stock">${own}</script>\n`;
  const written = parts.map((part) => {
    if (typeof part === "string") return part;
    if (part instanceof Element) return part.textContent ?? "";
    switch (part.place) {
      case "title":
        return escaped(title);
      case "inside":
        return `${stock}${blocks}\n`;
      case "core":
        return [...document.getElementsByClassName("core")].map((block) => `\n${opening(block)}${block.textContent ?? ""}</script>`).join("");
    }
  });
  return new Blob(written, { type: "text/html" });
}

function keep(element: Element): void {
  if (element.matches(LEFT_OUT)) return;
  // The script that runs; the others are data.
  const runs = element instanceof HTMLScriptElement && element.type === "";
  if (runs) parts.push({ place: "inside" });
  parts.push(opening(element));
  if (EMPTY.has(element.tagName)) return;
  if (element instanceof HTMLTitleElement) parts.push({ place: "title" });
  else if (RAW.has(element.tagName)) parts.push(element);
  else {
    for (const child of element.childNodes) {
      if (child instanceof Element) keep(child);
      else if (child instanceof Text) parts.push(escaped(child.data));
    }
  }
  parts.push(`</${element.localName}>`);
  // Behind it comes the core, which is not there yet.
  if (runs) parts.push({ place: "core" }, "\n");
}

function opening(element: Element): string {
  const attributes = [...element.attributes].map(({ name, value }) => ` ${name}="${escaped(value).replaceAll('"', "&quot;")}"`);
  return `<${element.localName}${attributes.join("")}>`;
}

/** Text in a page, as ASCII: one other letter, and a browser holds all of the page in twice the room and time. */
function escaped(text: string): string {
  return text.replace(/[&<]|[^\0-\x7f]/gu, (letter) => `&#${letter.codePointAt(0)};`);
}
