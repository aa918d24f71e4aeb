import { dayText } from "../../formula/calendar.ts";
import type { Sentence } from "../answer.ts";
import { intervalWords } from "../answering/rate-words.ts";
import {
  capitalised,
  count,
  counted,
  listed,
  percent,
  percentRange,
} from "../answering/wording.ts";
import {
  type JudgedShare,
  type Standard,
  type StandardParts,
  standardText,
} from "./standard-parts.ts";
import { type Verdict, verdicts } from "./verdict.ts";

/** The verdict in words, why, and what is to follow. */
export function standardSentence(parts: StandardParts): Sentence {
  const { standard, judged } = parts;
  const all = judged.at(-1);
  if (all === undefined) return ["There is nothing to set against the standard."];
  return [
    { text: capitalised(all.verdict), ...roleOf(all.verdict) },
    ": ",
    ...whyClause(parts, all),
    openClause(parts, all),
    groupClause(parts),
    followUp(standard),
  ];
}

/** "Cannot tell yet: 85.0% were free of failure (95% interval …; 517 eyes); standard at least 85%." */
export function standardBrief({ standard, measured, judged }: StandardParts): Sentence {
  const all = judged.at(-1);
  if (all === undefined || all.lower === null || all.upper === null) return [];
  const { verdict, estimate, lower, upper, total } = all;
  const words = measured[standard.side === "at least" ? "success" : "failure"].words;
  const definition = measured.definition === undefined ? "" : `${measured.definition}; `;
  return [
    { text: capitalised(verdict), ...roleOf(verdict) },
    `: ${percent(estimate)} ${words} (${definition}95% interval ${percentRange({ lower, upper })}; ` +
      `${counted(total, "eye")}); the standard is ${standardText(standard)}.`,
  ];
}

function roleOf(verdict: Verdict): { readonly role?: "failed" | "attached" } {
  if (verdict === "met") return { role: "attached" };
  return verdict === "not met" ? { role: "failed" } : {};
}

function whyClause({ standard, measured, of }: StandardParts, all: JudgedShare): Sentence {
  const level = `${standardText(standard)} (${standard.source})`;
  const { events, total, estimate, lower, upper, method } = all;
  if (estimate === null || lower === null || upper === null) {
    const why = total === 0 ? "there are no eyes" : "the rate cannot be estimated";
    return [`${why} to set against the standard of ${level}.`];
  }
  const counted = `${events === 0 ? "none" : count(events)} of ${count(total)}`;
  const interval = intervalWords({ method, lower, upper });
  const definition = measured.definition === undefined ? "" : ` (${measured.definition})`;
  return [
    {
      text: counted,
      ...(of.picks.has(all.eventsPick) ? { pick: all.eventsPick } : {}),
    },
    ` ${measured.counted}${definition}${shareWords({ standard, measured }, all)} (${interval}); `,
    `${reason(all.verdict, standard)} the standard of ${level}.`,
  ];
}

/** ": 15.1%" where the count is what the standard is about, ", so that 84.9% had not" else. */
function shareWords(
  { standard, measured }: Pick<StandardParts, "standard" | "measured">,
  { estimate, method }: Pick<JudgedShare, "estimate" | "method">,
): string {
  const wanted = standard.side === "at least" ? "success" : "failure";
  const share = percent(estimate);
  const isCounted = wanted === measured.measures && !measured.counted.startsWith("failed");
  const how = method.startsWith("Kaplan–Meier") ? "by the curve " : "";
  if (isCounted || (wanted === "failure" && measured.measures === "failure")) {
    return `: ${how}${share}`;
  }
  return `; an estimated ${share} ${measured[wanted].words}`;
}

function reason(verdict: Verdict, { side }: Standard): string {
  const [good, bad] = side === "at least" ? ["at or above", "below"] : ["at or below", "above"];
  if (verdict === "met") return `all of that interval lies ${good}`;
  if (verdict === "not met") return `all of that interval lies ${bad}`;
  return "that interval lies on both sides of";
}

/** What the verdict cannot see, and how far it could move the rate. */
function openClause({ standard, measured }: StandardParts, { open }: JudgedShare): string {
  if (open === undefined) return "";
  const { words } = measured[standard.side === "at least" ? "success" : "failure"];
  const isFailure = standard.side === "at most";
  const one = [isFailure ? "it did not" : "it did not fail", "it did"];
  const several = [`none of them ${isFailure ? "did" : "failed"}`, "all did"];
  const [none, all] = open.eyes === 1 ? one : several;
  return (
    ` The outcome of ${counted(open.eyes, "eye")} is not known: ` +
    `${percent(open.none)} ${words} if ${none}, ${percent(open.all)} if ${all}.`
  );
}

/** How the groups stand, people never by name. */
function groupClause({ judged, of }: StandardParts): string {
  const groups = judged.slice(0, -1);
  if (groups.length === 0) return "";
  const people = of.answer.cautions.some(({ code }) => code === "comparing-people");
  const told = verdicts.flatMap((verdict) => {
    const labels = groups.filter((each) => each.verdict === verdict).map(({ label }) => label);
    if (labels.length === 0) return [];
    const names = people || labels.length > 4 ? count(labels.length) : listed(labels);
    return [`${verdict} ${verdict === "met" ? "by" : "for"} ${names}`];
  });
  return ` Of ${count(groups.length)} groups: ${told.join("; ")}.`;
}

function followUp({ action, role, reAudit }: Standard): string {
  const told = [
    ...(action === undefined ? [] : [`Action: ${withoutStop(action)}.`]),
    ...(role === undefined ? [] : [`Owner: ${withoutStop(role)}.`]),
    ...(reAudit === undefined ? [] : [`Re-audit: ${dayText(reAudit)}.`]),
  ];
  return told.map((each) => ` ${each}`).join("");
}

function withoutStop(text: string): string {
  return text.trim().replace(/\.$/, "");
}
