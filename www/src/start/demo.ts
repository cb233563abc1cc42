// The demo that the builder put into the page: plans and the pictures that they show.

import { decodeBase64, type Core } from "./core.js";
import { fetchPart } from "./folder.js";
import { readBlock } from "./reading.js";

/** The demo's pictures, by file name; nothing where there is none of this name, or where its host is out of reach. */
export async function demoPicture(file: string): Promise<Blob | undefined> {
  for (let index = 0; ; index += 1) {
    const element = await readBlock("demo-picture", index);
    if (!(element instanceof HTMLScriptElement)) return undefined;
    if (element.dataset["name"] !== file) continue;
    const { type, dataset } = element;
    const beside = dataset["file"];
    if (beside === undefined) return new Blob([decodeBase64(element.textContent ?? "")], { type: type.replace(";base64", "") });
    const part = await fetchPart(beside).then((response) => response.arrayBuffer()).catch(() => undefined);
    return part && new Blob([part], { type });
  }
}

/** A plan of the demo. */
export interface DemoPlan {
  title: string;
  text: string;
}

/** The plans of the demo; the first is the one that the page opens on. */
export function demoPlans(core: Core): DemoPlan[] {
  return texts().map((text) => ({ title: core.Desk.plan_facts(text).title, text }));
}

/** The plan of the demo that the page opens on, as a file. */
export function firstDemoPlan(): string | undefined {
  return texts()[0];
}

/** All plans of the demo, as files. */
export function demoTexts(): string[] {
  return texts();
}

/** The example of a price book. */
export function demoBook(): string | undefined {
  return document.querySelector(".demo-prices")?.textContent ?? undefined;
}

function texts(): string[] {
  const elements = [...document.querySelectorAll<HTMLElement>(".demo-plan")];
  elements.sort((a, b) => Number(isFirst(b)) - Number(isFirst(a)));
  return elements.map((element) => element.textContent ?? "");
}

function isFirst(element: HTMLElement): boolean {
  return element.dataset["name"] === "low-water.json";
}
