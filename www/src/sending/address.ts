// The address of a published page, which links and papers name.

import { keptAddress } from "../kept/local.js";

/** Whether this page has an address that opens elsewhere. */
export function isPublished(): boolean {
  return location.protocol === "https:" || location.protocol === "http:";
}

/** The address of the published page: this one's, or what was stated. */
export function pageAddress(): string {
  return isPublished() ? location.href.split("#")[0] ?? "" : keptAddress();
}
