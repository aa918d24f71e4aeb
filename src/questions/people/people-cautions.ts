import type { Caution } from "../answer.ts";
import { earlyVisits } from "../answering/cautions.ts";
import { count, counted, listed, percent } from "../answering/wording.ts";
import type { Expectation } from "./expectation.ts";
import type { JudgedEyes } from "./judged-eyes.ts";

/** The cautions of questions about people and about change. */

/** Every answer about people says so, whatever it is split by. */
export function aboutPeople(): Caution {
  return {
    code: "comparing-people",
    text: "This is about people: it is not a measure of competence by itself. Case mix that was not recorded, eyes lost from sight and small numbers may explain it; talk first, with the eyes at hand.",
  };
}

/** Rates over time of whoever operated: of a unit, or of the one person whose eyes were kept. */
export function ratesAreOfPeople(): Caution {
  return {
    code: "comparing-people",
    text: "A rate over time is of those who operated: who they were, and on which eyes, changed as well, and small numbers may explain it. It is not a measure of anyone's competence by itself.",
  };
}

/** Looking again and again at growing data finds something sooner or later. */
export function severalLooks(): Caution {
  return {
    code: "several-looks",
    text: "Whoever looks at the same record month after month, or by several columns, sees a limit passed by chance sooner or later: agree beforehand on when to look and on what follows.",
  };
}

/** A published figure whose source nobody gave. */
export function expectedFrom(expectation: Expectation): Caution[] {
  if (expectation.kind === "published") {
    const other = {
      code: "expected-elsewhere",
      text: "The expected risk is from elsewhere: its eyes, its definition of failure and its follow-up may differ from these.",
    };
    const lacking = {
      code: "expected-without-source",
      text: "The expected risk has no source: add source: to say who published it.",
    };
    return expectation.source === undefined ? [other, lacking] : [other];
  }
  const mix =
    expectation.kind === "others"
      ? "It makes no allowance for case mix: name risk factors to allow for them."
      : "It allows only for what is recorded and named in the model; surgeons are given eyes for reasons that no column holds.";
  return [
    {
      code: "expected-from-others",
      text: `What is expected is taken as known, although the eyes of others are few as well. ${mix}`,
    },
  ];
}

/** Eyes whose window was still open, which bear on the latest work. */
export function tooRecentToJudge({ tooRecent, window, hasFailed }: JudgedEyes): Caution[] {
  const failed = tooRecent.filter(hasFailed).length;
  if (tooRecent.length === 0) return [];
  const already =
    failed === 0
      ? ""
      : ` ${counted(failed, "of them has", "of them have")} failed already: look at ${failed === 1 ? "it" : "them"} now.`;
  return [
    {
      code: "too-recent",
      text: `${counted(tooRecent.length, "eye was", "eyes were")} operated on less than ${window?.text ?? "the window"} before the last day of the file and ${tooRecent.length === 1 ? "is" : "are"} not judged yet, failed or not.${already}`,
    },
  ];
}

/** Persons for whom nothing can be expected, with why. */
export function cannotBeExpected(
  people: readonly { readonly label: string; readonly why: string }[],
): Caution[] {
  if (people.length === 0) return [];
  const each = people.map(({ label, why }) => `${label} (${why})`);
  return [{ code: "cannot-be-expected", text: `Nothing can be expected for ${listed(each)}.` }];
}

/** Several people, each set against a limit. */
export function severalPeople(people: number, level = 0.95): Caution[] {
  if (people < 2) return [];
  const outside = people * (1 - level);
  return [
    {
      code: "several-people",
      text: `${count(people)} people are each set against ${percent(level).replace(".0", "")} limits: where all do equally well, about ${outside.toFixed(1)} of them would still lie outside by chance.`,
    },
  ];
}

/** The units do not differ by more than chance. */
export function noDifferenceShown(): Caution {
  return {
    code: "no-difference-shown",
    text: "The people here do not differ by more than chance: the shrunken rate is the same for all, and nobody's place among them can be told.",
  };
}

/** The limits of shrunken rates are those of a model that is itself estimated from few people. */
export function shrunkenLimits(): Caution {
  return {
    code: "shrunken-limits",
    text: "The limits of rates drawn towards the mean take the mean and the spread for known: of ten people they hold the true rate in 84 to 96%, not 95%.",
  };
}

/** Places that no table and no chart may give away. */
export function namesHidden(): Caution {
  return {
    code: "names-hidden",
    text: 'Names are hidden: rows stand in the order of the number of eyes, which in a small unit may still tell who is who. Ask for names: "shown" only where all have agreed.',
  };
}

/** Others among whom each would be known by the number of eyes. */
export function othersTogether(): Caution {
  return {
    code: "others-together",
    text: 'The others are shown together: they are so few that the number of eyes would tell who is who. Ask for names: "shown" only where all have agreed.',
  };
}

/** A line whose limits hold at one operation chosen beforehand. */
export function holdsAtOneOperation(): Caution {
  return {
    code: "limits-at-one-operation",
    text: "The limits hold at one operation chosen beforehand, not along the whole line: a line that is watched all the time crosses them far more often by chance. For watching, ask cusum.",
  };
}

/** A signal bears the day of its operation, not the day on which it could be known. */
export function datedByOperation(signals: number, window: string | undefined): Caution[] {
  if (signals === 0) return [];
  return [
    {
      code: "dated-by-operation",
      text: `A signal bears the day of the operation that completed it; that its eye failed was known later${window === undefined ? "" : `, up to ${window} on`}.`,
    },
  ];
}

/** The sum was put back to nothing by hand. */
export function resetByHand(resets: number): Caution[] {
  if (resets === 0) return [];
  return [
    {
      code: "reset-by-hand",
      text: `The sums were set back to 0 by hand ${resets === 1 ? "once" : `${resets} times`}: what had gathered before is no longer in them, and the run lengths count from there.`,
    },
  ];
}

/** What else may have changed on the day of a change. */
export function otherThingsChanged(): Caution {
  return {
    code: "other-things-changed",
    text: "Before and after differ in more than this one change: case mix, people, follow-up and the season may have changed as well, and a change is often made when things were at their worst, after which they get better by themselves.",
  };
}

/** Eyes that stand in the order of the file because it has no days. */
export function inOrderOfFile(isByDay: boolean): Caution[] {
  if (isByDay) return [];
  return [
    {
      code: "order-of-file",
      text: "The file has no day of operation: the eyes stand in the order of its lines.",
    },
  ];
}

/** Rates of people that rest on eyes lost from sight, and on visits that came early. */
export function peopleNotKnown(judged: JudgedEyes): Caution[] {
  const { unknown, known, window } = judged;
  const early = earlyVisits(judged.record, judged);
  const of = unknown.length + known.length;
  if (of === 0 || unknown.length <= of / 10) return early;
  return [
    ...early,
    {
      code: "many-not-known",
      text: `The outcome${window === undefined ? "" : ` at ${window.text}`} of ${count(unknown.length)} of ${count(of)} eyes (${percent(unknown.length / of)}) is not known. None of them counts as a success; a rate built on the others may be better or worse than the truth.`,
    },
  ];
}

/** Kinds of eyes in which the others would be one person. */
export function keptBack(kinds: number): Caution[] {
  if (kinds === 0) return [];
  return [
    {
      code: "kept-back",
      text: `In ${counted(kinds, "kind")} of eyes the others are kept back: they would be one other surgeon, or could be had by subtraction.`,
    },
  ];
}
