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

/**
 * Whether prose typed into a notebook tells how many: "24 of 211", "3 eyes", "three failures",
 * "3/211", "n = 3". An acuity such as 6/12 is none.
 */
export function tellsCountsInProse(text: string): boolean {
  if (/\bn\s*=\s*\d/i.test(text)) return true;
  return inDigits.test(text) || inWords.test(text) || tellsFraction(text);
}

const things =
  "(?:eyes?|patients?|people|cases?|rows?|fail\\w*|operations?|repairs?|buckles?|vitrectom\\w+)";
const inDigits = new RegExp(`\\b\\d[\\d,]*\\s+(?:of|out of|${things})\\b`, "i");
/** From three on: "one eye" and "two eyes of a patient" explain more often than they count. */
const few = "(?:three|four|five|six|seven|eight|nine|ten|eleven|twelve)";
const inWords = new RegExp(
  `\\b(?:(?:one|two|${few}) (?:out )?of (?:the )?\\d|${few} ${things}\\b)`,
  "i",
);

/** Of a failure over a total; a day such as 31/03/2025 and a Snellen fraction are none. */
function tellsFraction(text: string): boolean {
  const fractions = [...text.matchAll(/(?<![\d/.])(\d+)\/(\d+)(?![\d/.]*\d)/g)];
  return fractions.some(([, over, under]) => !isSnellen(Number(over), Number(under)));
}

function isSnellen(distance: number, line: number): boolean {
  return [1, 2, 3, 4, 5, 6, 20].includes(distance) && snellenLines.has(line);
}

/** The lines of charts in metres and in feet: common practice, no source. */
const snellenLines = new Set([
  ...[4, 5, 6, 7, 8, 9, 10, 12, 15, 18, 20, 24, 25, 30, 32, 36, 38, 40, 48, 50, 60, 63, 70, 80],
  ...[100, 120, 125, 150, 160, 200, 250, 300, 320, 400, 500, 600, 800],
]);
