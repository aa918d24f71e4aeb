import type { AggregatesFile } from "../../aggregates/aggregates-file.ts";
import { type CountBounds, mostEyes } from "../../aggregates/count-bounds.ts";
import type { Answer, AnswerCell, Answered, Caution, LeftOut } from "../answer.ts";
import { count, percent, percentRange } from "../answering/wording.ts";

/** An answer from counts: no eye of it can be opened here, since none left its department. */
export function pooledAnswer(
  files: readonly AggregatesFile[],
  answer: Omit<Answer, "unit" | "used" | "leftOut" | "cautions">,
  more: {
    readonly used: CountBounds;
    readonly cautions: readonly Caution[];
    readonly leftOut?: readonly LeftOut[];
  },
): { readonly answered: Answered } {
  const cautions = [...standingCautions(files, answer.question), ...more.cautions];
  return {
    answered: {
      answer: {
        ...answer,
        unit: "eyes",
        used: more.used.least,
        leftOut: more.leftOut ?? [],
        cautions,
      },
      picks: new Map(),
      record: { describe: () => ({ headings: [], rows: [] }) },
    },
  };
}

function standingCautions(files: readonly AggregatesFile[], question: string): Caution[] {
  const chosen = files[0]?.definition.eyes === "chosen";
  return [
    {
      code: "departments-differ",
      text: "Departments differ in their patients, in what they record and in how long they follow: a difference between them is not a difference in quality by itself. For audit and learning; local protocols and licensed practitioners decide.",
    },
    ...(chosen
      ? [
          {
            code: "eyes-chosen",
            text: "Each department chose its eyes by a condition that is not in its file: ask whether it was the same.",
          },
        ]
      : []),
    ...(question === "pooled_rate" ? [] : [independentEyes]),
  ];
}

/** Aggregates hold no patient, so two eyes of one cannot be told. */
export const independentEyes: Caution = {
  code: "paired-eyes",
  text: "Which eyes are of one patient is not in the aggregates: intervals treat eyes as independent.",
};

/** Where some of what an answer rests on is withheld. */
export function withheldCaution(isBounded: boolean): Caution[] {
  if (!isBounded) return [];
  return [
    {
      code: "counts-withheld",
      text: "Some departments withhold small counts: the answer is given as the lowest and the highest value that they allow, and the interval reaches from the lower limit of the one to the upper limit of the other.",
    },
  ];
}

/** "68", or "61 to 69". */
export function boundsCell({ least, most }: CountBounds): AnswerCell {
  if (least === most) return { text: count(least), value: least };
  const text = most < mostEyes ? `${count(least)} to ${count(most)}` : `${count(least)} or more`;
  return { text, value: null, limits: { lower: least, upper: most } };
}

export function boundsText({ least, most }: CountBounds): string {
  return boundsCell({ least, most }).text;
}

/** "13.6%", or "12.1 to 14.0%" where counts are withheld. */
export function shareText(lowest: number | null, highest: number | null): string {
  if (lowest === null || highest === null) return "–";
  if (isOneValue({ lowest, highest })) return percent(lowest);
  return `${(100 * lowest).toFixed(1)} to ${percent(highest)}`;
}

/** A share between two bounds, with the interval that holds both. */
export interface BoundedShare {
  readonly lowest: number;
  readonly highest: number;
  readonly lower: number;
  readonly upper: number;
}

/** Rounding in the last digits is no difference. */
export function isOneValue({ lowest, highest }: Pick<BoundedShare, "lowest" | "highest">): boolean {
  return highest - lowest < 1e-12;
}

/** "14.7% (12.4 – 17.3)", or "12.1 to 14.0% (9.8 – 16.9)" where counts are withheld. */
export function shareCell(share: BoundedShare | null): AnswerCell {
  if (share === null) return { text: "–", value: null };
  const { lowest, highest, lower, upper } = share;
  return {
    text: `${shareText(lowest, highest)} (${percentRange(share)})`,
    value: isOneValue(share) ? lowest : null,
    limits: { lower, upper },
  };
}

/** "redetachment within 12 months". */
export function definitionWords(files: readonly AggregatesFile[]): string {
  const { failure = "", window = "" } = files[0]?.definition ?? {};
  return `${failure} within ${window}`;
}
