import { type SuspicionEnding, suspicionEndings } from "../../outcomes/after-failure.ts";
import { eyeCount } from "../../outcomes/eye-record.ts";
import type { Sentence } from "../answer.ts";
import { isComparingPeople } from "../answering/cautions.ts";
import { failedPhrase } from "../answering/failure-words.ts";
import {
  capitalised,
  count,
  counted,
  figure,
  listed,
  percent,
  percentRange,
} from "../answering/wording.ts";
import {
  type AfterFailureParts,
  byNextStep,
  type CourseGroup,
  courseGroup,
  settledShare,
} from "./after-failure-parts.ts";

/** What was done after a first failure, how it ended, and what became of the suspected ones. */
export function afterFailureSentence(parts: AfterFailureParts): Sentence {
  const { record, courses, window } = parts;
  if (eyeCount(record) === 0) return ["No eyes to follow."];
  const within = window === undefined ? "" : ` within ${window.text} of the repair`;
  const eyes = counted(eyeCount(record), "eye");
  if (courses.failed.length === 0) {
    return [`No failure is recorded${within} among ${eyes}.`, ...suspectedClause(parts)];
  }
  const all = courseGroup(record, "all first failures", courses.failed);
  return [
    `Of ${eyes}, `,
    { text: failedPhrase(record, courses.failed.length), role: "failed", pick: "failed" },
    `${within}. `,
    nextClause(parts),
    ...endClause(all),
    operationsClause(all),
    groupClause(parts),
    ...suspectedClause(parts),
  ];
}

/** "Of 69 first failures, 50 of 62 decided were attached without oil (80.6%, 95% interval …)." */
export function afterFailureBrief({ record, courses }: AfterFailureParts): Sentence {
  const share = courseGroup(record, "all first failures", courses.failed).withoutOil;
  if (share === null) return [];
  const attached = share.count === 0 ? "none" : count(share.count);
  const decided = share.of === courses.failed.length ? "" : ` of ${count(share.of)} decided`;
  return [
    `Of ${counted(courses.failed.length, "first failure")}, ${attached}${decided} ` +
      `${share.count === 1 ? "was" : "were"} attached without oil (${percent(share.share)}, ` +
      `95% interval ${percentRange(share.interval)}).`,
  ];
}

function nextClause({ record, courses }: AfterFailureParts): string {
  const steps = byNextStep(record, courses.failed);
  const of = (kind: string): CourseGroup[] =>
    steps.filter((step) => step.courses[0]?.next.kind === kind);
  const done = of("operation").map(({ label, courses: own }) => `${label} in ${own.length}`);
  const [watched] = of("observed");
  const [silent] = of("none recorded");
  const parts = [
    ...(done.length === 0 ? [] : [`next came ${listed(done)}`]),
    ...(watched === undefined
      ? []
      : [
          `${counted(watched.courses.length, "eye was", "eyes were")} observed without an operation`,
        ]),
    ...(silent === undefined
      ? []
      : [`for ${count(silent.courses.length)} no further operation is recorded`]),
  ];
  return `${capitalised(parts.join("; "))}. `;
}

function endClause(all: CourseGroup): Sentence {
  const number = (state: "attached under oil" | "detached"): number =>
    all.byState.get(state)?.length ?? 0;
  const open = all.courses.length - all.decided;
  if (all.withoutOil === null || all.withOrWithoutOil === null) {
    return ["How they stood at the last visit is decided for none of them."];
  }
  const { count: attached, of, share, interval } = all.withoutOil;
  const oil = number("attached under oil");
  const detached = number("detached");
  const held =
    oil === 0
      ? ""
      : `, ${count(oil)} more under oil (${percent(all.withOrWithoutOil.share)} with or without oil)`;
  const subject =
    of === 1 ? "the 1 eye whose state is decided" : `the ${count(of)} eyes whose state is decided`;
  return [
    `At the last visit, of ${subject}, `,
    {
      text: `${attached === 0 ? "none" : count(attached)} ${attached === 1 ? "was" : "were"} attached without oil`,
      role: "attached",
      ...(attached === 0 ? {} : { pick: "ended:attached" }),
    },
    ` (${percent(share)}, 95% ${interval.method} interval ${percentRange(interval)})${held}`,
    detached === 0 ? " and none detached" : " and ",
    ...(detached === 0
      ? []
      : [{ text: `${count(detached)} detached`, role: "failed" as const, pick: "ended:detached" }]),
    open === 0 ? "." : `; ${counted(open, "eye is", "eyes are")} not decided or not known.`,
  ];
}

function operationsClause({ operations, courses }: CourseGroup): string {
  if (operations === null) return "";
  const { median, least, most } = operations;
  const who = courses.length === 1 ? "It" : "They";
  if (most === 0) {
    return courses.length === 1
      ? " It had no further operation."
      : " None of them had a further operation.";
  }
  if (least === most) {
    const each = courses.length === 1 ? "" : " each";
    return ` ${who} had ${counted(most, "further operation")}${each}.`;
  }
  const further = median === 1 ? "further operation" : "further operations";
  return ` ${who} had a median of ${figure(median)} ${further} (${least} to ${most}).`;
}

/** How many of each group, never of people, ended attached without oil, for up to six. */
function groupClause({ record, grouping, courses }: AfterFailureParts): string {
  if (grouping.label === undefined || isComparingPeople(grouping.by)) return "";
  const told = grouping.groups.flatMap(({ label, eyes }) => {
    const members = new Set(eyes);
    const group = courseGroup(
      record,
      label,
      courses.failed.filter(({ eye }) => members.has(eye)),
    );
    if (group.withoutOil === null) return [];
    const { count: attached, of, share } = group.withoutOil;
    return [`${label} ${count(attached)} of ${count(of)} (${percent(share)})`];
  });
  if (told.length === 0) return "";
  return ` Attached without oil by ${grouping.label}: ${told.slice(0, 6).join("; ")}.`;
}

const endingWords: Readonly<Record<SuspicionEnding, string>> = {
  settled: "settled without an operation",
  "operated on": "came to a further operation",
  detached: "detached without a further operation",
  "not decided": "not decided",
};

function suspectedClause({ record, courses: { suspected } }: AfterFailureParts): Sentence {
  if (suspected.length === 0) return [];
  const share = settledShare(record, suspected);
  const who = { text: counted(suspected.length, "suspected failure"), pick: "suspected" };
  const what = " (fluid under observation, not called a failure)";
  if (share === null) {
    const one = suspected.length === 1;
    return [
      one ? " The outcome of " : " None of ",
      who,
      `${what} is ${one ? "not decided" : "decided"} yet.`,
    ];
  }
  const number = (ending: SuspicionEnding): number =>
    suspected.filter((each) => each.ending === ending).length;
  const parts = suspicionEndings
    .filter((ending) => number(ending) > 0 || ending === "settled")
    .map((ending) => {
      const eyes = number(ending);
      const verb = ending === "not decided" ? (eyes === 1 ? "is " : "are ") : "";
      return `${eyes === 0 ? "none" : count(eyes)} ${verb}${endingWords[ending]}`;
    });
  const settled =
    ` (${percent(share.share)} of the ${count(share.of)} decided, 95% ${share.interval.method} interval ` +
    `${percentRange(share.interval)})`;
  const [first = "", ...others] = parts;
  return [
    " Of ",
    who,
    `${what}, `,
    { text: first, ...(number("settled") === 0 ? {} : { pick: "suspected:settled" }) },
    `${settled}${others.length === 0 ? "" : `, ${listed(others)}`}.`,
  ];
}
