// The page as it came, to be written again with something inside: the very same script and style, so that its policy holds.
//
// A page that is a folder on a web host fetches its parts and writes them into one file: what a proposal is sent as needs no host.

import { base64 } from "../pictures/pictures.js";
import { coreAddresses, fetchPart } from "../start/folder.js";

/** Elements that have no end, and those whose text is taken as it stands. */
const EMPTY = new Set(["META", "INPUT", "BR", "LINK", "HR"]);
const RAW = new Set(["SCRIPT", "STYLE", "NOSCRIPT"]);
/** The id of a proposal that a page may have inside. */
const INSIDE = "proposal";
/** What a page with something inside does without: the demo, and what was inside before. */
const LEFT_OUT = `#${INSIDE}, [data-folder], .demo-picture, .demo-plan, .demo-prices, #own-stock, #own-prices`;

/** Bytes of the deflated core in a block: their number is one of threes, which base64 needs no padding for. */
const BLOCK_BYTES = 48 * 1024;

/** A part of the page: markup, the place of its title, of what is inside or of the core, or an element or a file whose text is taken when it is written. */
type Part = string | Element | { place: "title" | "inside" | "core" } | { file: string };

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
export async function pageWith(title: string, blocks: string): Promise<Blob> {
  const own = blocks.includes('id="own-stock"') ? undefined : ofStudio("stock");
  const stock = own === undefined ? "" : `<script type="application/json" id="own-stock">${own}</script>\n`;
  const writing = parts.map(async (part) => {
    if (typeof part === "string") return part;
    if (part instanceof Element) return part.textContent ?? "";
    if ("file" in part) return (await fetchPart(part.file)).text();
    switch (part.place) {
      case "title":
        return escaped(title);
      case "inside":
        return `${stock}${blocks}\n`;
      case "core":
        return coreAddresses === undefined ? coreHere("core") + coreHere("rest") : (await packed("core", coreAddresses.core)) + (await packed("rest", coreAddresses.rest));
    }
  });
  return new Blob(await Promise.all(writing), { type: "text/html" });
}

/** The blocks of a part of the core that lie in this page. */
function coreHere(part: string): string {
  return [...document.getElementsByClassName(part)].map((block) => `\n${opening(block)}${block.textContent ?? ""}</script>`).join("");
}

/** The blocks of a part of the core as the builder makes them, from the file on this page's host. */
async function packed(part: string, address: string): Promise<string> {
  const { body } = await fetchPart(address);
  if (body === null) return "";
  const deflated = new Uint8Array(await new Response(body.pipeThrough(new CompressionStream("deflate-raw"))).arrayBuffer());
  const count = Math.ceil(deflated.length / BLOCK_BYTES);
  const block = (_: unknown, index: number): string => {
    const text = base64(deflated.subarray(index * BLOCK_BYTES, (index + 1) * BLOCK_BYTES));
    return `\n<script type="application/wasm;base64" class="${part}" data-parts="${count}">${text}</script>`;
  };
  return Array.from({ length: count }, block).join("");
}

function keep(element: Element): void {
  if (element.matches(LEFT_OUT)) return;
  const runs = isRunning(element);
  if (runs) parts.push({ place: "inside" });
  if (element instanceof HTMLLinkElement && element.rel === "stylesheet") {
    parts.push("<style>", { file: element.href }, "</style>");
    return;
  }
  parts.push(opening(element));
  if (EMPTY.has(element.tagName)) return;
  if (element instanceof HTMLTitleElement) parts.push({ place: "title" });
  else if (runs && element.src !== "") parts.push({ file: element.src });
  else if (RAW.has(element.tagName)) parts.push(element);
  else {
    for (const child of element.childNodes) {
      if (child instanceof Element) keep(child);
      else if (child instanceof Text) parts.push(escaped(child.data));
      // Behind it comes the core, which is not there yet, and nothing else.
      if (isRunning(child)) break;
    }
  }
  parts.push(`</${element.localName}>`);
  if (runs) parts.push({ place: "core" }, "\n");
}

/** The script that runs; the others in the body are data. */
function isRunning(node: Node): node is HTMLScriptElement {
  return node instanceof HTMLScriptElement && node.type === "" && !node.matches(LEFT_OUT);
}

function opening(element: Element): string {
  // What a page on a web host has besides: the policy of the one file, and where its script is.
  const single = element.getAttribute("data-single");
  const own = [...element.attributes].filter(({ name }) => !["data-single", "src", "defer"].includes(name));
  const attributes = own.map(({ name, value: present }) => {
    const value = single !== null && name === "content" ? single : present;
    return ` ${name}="${escaped(value).replaceAll('"', "&quot;")}"`;
  });
  return `<${element.localName}${attributes.join("")}>`;
}

/** Text in a page, as ASCII: one other letter, and a browser holds all of the page in twice the room and time. */
function escaped(text: string): string {
  return text.replace(/[&<]|[^\0-\x7f]/gu, (letter) => `&#${letter.codePointAt(0)};`);
}
