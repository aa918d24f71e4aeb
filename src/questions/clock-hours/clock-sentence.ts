import { eyeCount } from "../../outcomes/eye-record.ts";
import type { Sentence } from "../answer.ts";
import { rateWords } from "../answering/rate-words.ts";
import { othersInTable, toldGroups } from "../answering/told-groups.ts";
import { count, counted, listed, percent } from "../answering/wording.ts";
import { headlineOf, isByCurve } from "../failure-rate/rate-of-group.ts";
import type { ClockGroup, ClockParts, ClockRow } from "./clock-parts.ts";

/**
 * Where the breaks lay, and how often eyes with an inferior break failed beside the others; of
 * groups, how many of each have an inferior break.
 */
export function clockSentence(parts: ClockParts): Sentence {
  const { record, total, inferior } = parts;
  const eyes = eyeCount(record);
  const placed = total.eyes.length;
  if (eyes === 0) return ["No eyes to look at."];
  if (placed === 0)
    return [`The place of a break is recorded for none of ${counted(eyes, "eye")}.`];
  const within = record.window === undefined ? "" : ` within ${record.window.text}`;
  return [
    `Of ${counted(eyes, "eye")}, ${count(placed)} ${placed === 1 ? "has" : "have"} the place of a ` +
      `break recorded: ${quadrantClause(total)}. `,
    ...failureClause(total.withInferior, {
      who: `with an inferior break (${inferior.name} o'clock)`,
      none: `No eye has an inferior break (${inferior.name} o'clock).`,
      pick: "inferior",
      within,
    }),
    " ",
    ...failureClause(total.withoutInferior, {
      who: "without one",
      none: "No eye is without one.",
      pick: "elsewhere",
      within,
    }),
    groupClause(parts),
  ];
}

/** "Failed: with an inferior break 19 of 200 eyes (10.3%), without one 46 of 256 eyes (19.5%)." */
export function clockBrief({ total }: ClockParts): Sentence {
  if (total.eyes.length === 0) return [];
  const { withInferior, withoutInferior } = total;
  const both = [withInferior, withoutInferior].map(briefOf);
  const [inferior, other] = both;
  if (inferior === undefined || other === undefined) return [];
  // Where some are lost the rate is no quotient of the counts beside it, and is told before them.
  const isOfCurve = [withInferior, withoutInferior].some(({ rate }) => isByCurve(rate));
  return isOfCurve && both.every(({ share }) => share !== "")
    ? [
        `By the curve ${inferior.share} failed with an inferior break (${inferior.counts}), ` +
          `${other.share} without (${other.counts}).`,
      ]
    : [`Failed: with an inferior break ${told(inferior)}, without one ${told(other)}.`];
}

interface BriefRow {
  readonly counts: string;
  readonly eyes: number;
  readonly share: string;
}

function briefOf({ eyes, rate }: ClockRow): BriefRow {
  const headline = headlineOf(rate);
  const failed = rate.failed === 0 ? "none" : count(rate.failed);
  return {
    eyes: eyes.length,
    counts: `${failed} of ${count(eyes.length)}`,
    share: eyes.length === 0 || headline === null ? "" : percent(headline.estimate),
  };
}

function told({ counts, eyes, share }: BriefRow): string {
  if (eyes === 0) return "no eye";
  const whole = `${counts} ${eyes === 1 ? "eye" : "eyes"}`;
  return share === "" ? whole : `${whole} (${share})`;
}

function quadrantClause({ byQuadrant, eyes: placed }: ClockGroup): string {
  const told = byQuadrant.map(({ quadrant, eyes }) =>
    eyes.length === 0
      ? `${quadrant} in none`
      : `${quadrant} in ${count(eyes.length)} (${percent(eyes.length / placed.length)})`,
  );
  const several = placed.some(({ hours }) => hours.length > 1);
  return `${listed(told)}${several ? "; an eye with several breaks counts in each place" : ""}`;
}

function failureClause(
  { eyes, rate }: ClockRow,
  said: Readonly<Record<"who" | "none" | "pick" | "within", string>>,
): Sentence {
  if (eyes.length === 0) return [said.none];
  const failed =
    rate.failed === 0
      ? "none failed"
      : {
          text: `${count(rate.failed)} failed`,
          role: "failed" as const,
          pick: `${said.pick}:failed`,
        };
  return [
    `Of ${counted(eyes.length, "eye")} ${said.who}, `,
    failed,
    `${said.within}: ${rateWords(rate)}.`,
  ];
}

/** At most so many groups are read out. */
const mostRead = 5;

/** " An inferior break by technique: scleral buckle, 80 of 211 eyes (37.9%); vitrectomy, …" */
function groupClause({ grouping, groups }: ClockParts): string {
  const placed = groups.filter(({ eyes }) => eyes.length > 0);
  const told = toldGroups(grouping, placed, ({ eyes }) => eyes.length);
  if (told.length === 0) return "";
  const largest = [...told].sort((a, b) => b.eyes.length - a.eyes.length).slice(0, mostRead);
  const read = told.filter((group) => largest.includes(group)).map(inferiorShare);
  const others = othersInTable(read.length, placed.length);
  return ` An inferior break by ${grouping.label}: ${read.join("; ")}${others}.`;
}

function inferiorShare({ label, eyes, withInferior }: ClockGroup): string {
  const { length } = withInferior.eyes;
  const own = length === 0 ? "none" : count(length);
  const share = length === 0 ? "" : ` (${percent(length / eyes.length)})`;
  return `${label}, ${own} of ${counted(eyes.length, "eye")}${share}`;
}
