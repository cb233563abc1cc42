// In which units a plan begins that nobody has stated yet.

/**
 * Where inches are everyday: CLDR, measurementData, measurementSystem "US" (supplemental data, as UTS #35 part 6 gives it). Its "UK" is
 * mixed; British shops sell frames in centimetres as well, and a plan in centimetres has the British words of the trade.
 */
const INCHES = new Set(["LR", "MM", "US"]);

/** Whether people who read these languages, the preferred first, measure in centimetres; where none says so, in inches as ever. */
export function isMetric(languages: readonly string[]): boolean {
  for (const language of languages) {
    const region = regionOf(language);
    if (region !== undefined) return !INCHES.has(region);
  }
  return false;
}

/** The region of a language: its own, or that where most of its readers live. */
function regionOf(language: string): string | undefined {
  try {
    return new Intl.Locale(language).maximize().region;
  } catch {
    return undefined;
  }
}

/** Whether a plan that can't be opened was in centimetres: as its text says, if it still does. */
export function isInCentimetres(text: string): boolean | undefined {
  const first = /"units"\s*:\s*"(\w+)"/.exec(text)?.[1];
  return first === undefined ? undefined : first === "centimetres";
}
