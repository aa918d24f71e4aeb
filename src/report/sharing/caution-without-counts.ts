import type { Caution } from "../../questions/answer.ts";

/**
 * A caution as it may leave the department where its own text tells counts that are not shown: what
 * it warns of, in words, and no number of eyes or patients.
 */
export function cautionWithoutCounts(code: Caution["code"]): Caution {
  const about = inWords.get(code) ?? `A caution on ${code.replaceAll("-", " ")} holds here.`;
  return { code, text: `${about} (Its counts are withheld.)` };
}

const inWords: ReadonlyMap<string, string> = new Map([
  ["small-numbers", "Numbers are small in some of the groups: read the interval, not the rate."],
  [
    "many-not-known",
    "Of more than a tenth of the eyes the outcome is not known: a rate of those known may be better or worse than the truth.",
  ],
  ["many-left-out", "More than a tenth were left out, since something needed is not recorded."],
  ["few-at-risk", "Where few eyes remain at risk the curve is dimmed: do not lean on that part."],
  ["groups-not-drawn", "Groups of few eyes are not drawn."],
  [
    "undecided-censored",
    "Some eyes are undecided, and followed only as long as known not to have failed.",
  ],
  ["outcomes-in-doubt", "Some eyes are undecided because the record leaves the outcome in doubt."],
  [
    "failures-dated-by-visit",
    "Some eyes were found detached at a visit with no day of redetachment recorded: the failure is put on the day of that visit, and may have come earlier.",
  ],
  ["paired-eyes", "Some patients give more than one eye."],
  ["cause-not-recorded", "The cause of some failures is not recorded."],
  ["causes-overlap", "Some failures have several causes and count under each."],
  ["several-causes", "Some failures have several causes at once and count once."],
  [
    "several-comparisons",
    "Several comparisons are made here: where nothing differs, about one in twenty would still leave no difference outside its interval.",
  ],
  ["several-verdicts", "Several groups are set against the standard: one may miss it by chance."],
  ["several-people", "Several people are set against limits: one may lie outside by chance."],
  ["many-lost", "More than a tenth of the eyes due were lost to follow-up."],
  ["too-recent", "Some eyes were operated on too late to be judged yet, failed or not."],
  ["low-vision-by-table", "Some acuities are low vision, with a logMAR from a published table."],
  ["counted-in-each", "Some eyes have breaks in several places and count in each."],
  ["clock-from-oil-removal", "Some eyes are followed from the day oil came out."],
  ["ends-not-decided", "How some of the eyes ended is not decided or not known."],
]);
