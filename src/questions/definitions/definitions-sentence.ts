import { eyeCount } from "../../outcomes/eye-record.ts";
import type { Sentence, SentencePart } from "../answer.ts";
import { isComparingPeople } from "../answering/cautions.ts";
import { failedPhrase } from "../answering/failure-words.ts";
import { rateWords } from "../answering/rate-words.ts";
import { capitalised, count, counted, percent } from "../answering/wording.ts";
import { headlineOf } from "../failure-rate/rate-of-group.ts";
import type { DefinitionParts } from "./definitions-parts.ts";
import type { DefinitionSection } from "./rates-every-way.ts";
import { wayWords } from "./way-words.ts";

/** How far the rate moves with the way of counting, and which eyes it hangs on. */
export function definitionsSentence(parts: DefinitionParts): Sentence {
  const eyes = eyeCount(parts.counted.chosen);
  if (eyes === 0) return ["No eyes to count."];
  const { always, sometimes } = parts.rates;
  const ways = parts.rates.all.length;
  const opening = `Of ${counted(eyes, "eye")}, `;
  if (sometimes.length === 0 && always.length === 0) {
    return [`${opening}none failed${within(parts)} under any of the ${ways} ways of counting.`];
  }
  return [
    opening,
    ...rangeClause(parts),
    ...chosenClause(parts),
    ...agreement(parts),
    ...spread(parts),
  ];
}

/** "Of 517 eyes, 9 to 94 failed, depending on the way of counting: rates from 1.7% to 18.2%." */
export function definitionsBrief({ counted: { chosen }, rates }: DefinitionParts): Sentence {
  const eyes = eyeCount(chosen);
  const failed = rates.all.map(({ rate }) => rate.failed);
  const shares = rates.all.flatMap(({ rate }) => headlineOf(rate)?.estimate ?? []);
  const [least, most] = [Math.min(...failed), Math.max(...failed)];
  if (eyes === 0 || most === 0 || shares.length === 0) return [];
  const number =
    least === most ? count(most) : `${least === 0 ? "none" : count(least)} to ${count(most)}`;
  return [
    `Of ${counted(eyes, "eye")}, ${number} failed, depending on the way of counting: rates from ` +
      `${percent(Math.min(...shares))} to ${percent(Math.max(...shares))}.`,
  ];
}

/** The last two definitions are states that are read once, at the last visit. */
function within({ rules }: DefinitionParts): string {
  return rules.window === undefined ? "" : ` within ${rules.window.text} or at the last visit`;
}

function rangeClause(parts: DefinitionParts): Sentence {
  const { all, sometimes, always } = parts.rates;
  if (sometimes.length === 0) {
    const same = always.length === 1 ? "the same one" : `the same ${count(always.length)}`;
    return [`${same} failed${within(parts)} under each of the ${all.length} ways of counting. `];
  }
  const ordered = all
    .filter(({ rate }) => headlineOf(rate) !== null)
    .sort((a, b) => (headlineOf(a.rate)?.estimate ?? 0) - (headlineOf(b.rate)?.estimate ?? 0));
  const fewest = Math.min(...all.map(({ rate }) => rate.failed));
  const most = Math.max(...all.map(({ rate }) => rate.failed));
  const numbers =
    fewest === most ? count(most) : `${fewest === 0 ? "none" : count(fewest)} to ${count(most)}`;
  const [least, greatest] = [ordered[0], ordered.at(-1)];
  const rates =
    least === undefined || greatest === undefined
      ? ""
      : `: the rate runs from ${percent(headlineOf(least.rate)?.estimate ?? null)} ` +
        `(${wayWords(least.way)}) to ${percent(headlineOf(greatest.rate)?.estimate ?? null)} ` +
        `(${wayWords(greatest.way)})`;
  return [`${numbers} failed${within(parts)}, depending on the way of counting${rates}. `];
}

function chosenClause({ counted: { chosen }, rules, rates }: DefinitionParts): Sentence {
  const oil = rules.failure === "not attached without oil" ? "" : `, oil ${rules.oil}`;
  const { failed, notKnown } = rates.chosen;
  const phrase: SentencePart = {
    text: failedPhrase(chosen, failed, notKnown),
    role: "failed",
    ...(failed === 0 ? {} : { pick: "chosen:failed" }),
  };
  return [
    `By the definition chosen (${rules.failure}${oil}) `,
    phrase,
    `: ${rateWords(rates.chosen)}.`,
  ];
}

function agreement({ rates: { always, never, sometimes } }: DefinitionParts): Sentence {
  if (sometimes.length === 0) return [];
  const part = (eyes: readonly number[], pick: string, role?: "failed"): SentencePart => ({
    text: counted(eyes.length, "eye"),
    ...(eyes.length === 0 ? {} : { pick }),
    ...(role === undefined ? {} : { role }),
  });
  const first = part(always, "always", "failed");
  return [
    " ",
    { ...first, text: capitalised(first.text) },
    " failed under every way of counting and ",
    part(never, "never"),
    " under none; for ",
    part(sometimes, "sometimes"),
    " it depends on the way of counting.",
  ];
}

/** Groups of ten eyes or more, never people: the range of each over the definitions, up to four. */
function spread({ grouping, rates }: DefinitionParts): Sentence {
  if (grouping.label === undefined || isComparingPeople(grouping.by)) return [];
  const large = rates.sections
    .slice(0, -1)
    .filter(({ rows }) => rows.some(({ rate }) => rate.eyes + rate.notKnown >= 10))
    .slice(0, 4);
  const told = large.flatMap((section) => rangeOf(section));
  if (told.length === 0) return [];
  return [` ${capitalised(`by ${grouping.label}`)}: ${told.join("; ")}.`];
}

function rangeOf({ label, rows }: DefinitionSection): string[] {
  const rates = rows.flatMap(({ lowest, highest }) =>
    lowest === null || highest === null ? [] : [lowest, highest],
  );
  if (rates.length === 0) return [];
  const [least, most] = [percent(Math.min(...rates)), percent(Math.max(...rates))];
  return [least === most ? `${label} ${most} throughout` : `${label} ${least} to ${most}`];
}
