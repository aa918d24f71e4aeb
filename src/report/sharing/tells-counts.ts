/**
 * Whether a text tells counts other than those given: whole numbers that are no percentage, no
 * length of time, no part of a decimal or an interval, no level, no quarter.
 */
export function tellsOtherCounts(text: string, open: ReadonlySet<number>): boolean {
  const bare = text
    .replace(/\b\d{4} Q[1-4]\b/g, "")
    .replace(/\d+(?:\.\d+)?%/g, "")
    .replace(/\d+\.\d+/g, "")
    .replace(/\b\d+ (?:days?|weeks?|months?|years?|o'clock|degrees? of freedom)\b/g, "");
  return [...bare.matchAll(/\d[\d,]*/g)].some(([digits]) => {
    const number = Number(digits.replaceAll(",", ""));
    return number !== 0 && !open.has(number);
  });
}

/** Whether prose typed into a notebook tells how many: "24 of 211", "3 eyes". */
export function tellsCountsInProse(text: string): boolean {
  return /\b\d[\d,]*\s+(?:of|out of|eyes?|patients?|people|cases?|rows?|fail\w*|operations?|repairs?|buckles?|vitrectom\w+)\b/i.test(
    text,
  );
}
