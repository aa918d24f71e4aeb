import { describe, expect, it } from "vitest";
import { sentencesOf, splitSentence } from "../../src/page/meeting/brief-sentence.ts";
import {
  maskOf,
  unmasked,
  withoutPeople,
  workingsBehind,
} from "../../src/page/meeting/hide-people.ts";
import {
  actionItems,
  actionsIn,
  findingsOf,
  minutesPlanned,
} from "../../src/page/meeting/meeting-pages.ts";
import { sentenceText } from "../../src/questions/answer.ts";
import { rateAnswer } from "./fake-answers.ts";
import { cellViews, notebookView } from "./fake-sheet.ts";

const cells = new Map(cellViews.map((view) => [view.name, view]));

describe("pages of the meeting", () => {
  it("are the cells with an answer, each with the prose above it", () => {
    const findings = findingsOf(notebookView, cells);
    expect(findings.map(({ view }) => view.name)).toEqual(["how_often", "when", "why", "busy"]);
    expect(findings[0]?.section).toBe("How often did it fail?");
    expect(findings[0]?.notes).toEqual([expect.stringContaining("primary repair")]);
    expect(findings[1]?.notes).toEqual([]);
  });

  it("end with the actions agreed", () => {
    const blocks = [
      { type: "heading", level: 2, text: "Actions Agreed" },
      { type: "prose", text: "- one" },
      { type: "heading", level: 2, text: "Then" },
      { type: "prose", text: "no action" },
    ] as const;
    expect(actionsIn(blocks)).toEqual(["- one"]);
    expect(actionsIn(notebookView.blocks)).toEqual([]);
  });
});

describe("what the notebook says of a meeting", () => {
  it("is an action for each item of a list, and prose whole", () => {
    expect(actionItems(["Before summer:", "- one\n  goes on\n* two - three"])).toEqual([
      { text: "Before summer:", isItem: false },
      { text: "one\n  goes on", isItem: true },
      { text: "two - three", isItem: true },
    ]);
  });

  it("plans minutes at the end of a heading", () => {
    expect(minutesPlanned("How often? (5 minutes)")).toBe(5);
    expect(minutesPlanned("Why (1 min)")).toBe(1);
    expect(minutesPlanned("Within (5 minutes) of it")).toBeUndefined();
    expect(minutesPlanned("Why?")).toBeUndefined();
  });
});

describe("a sentence for a room", () => {
  it("is the brief of an answer that has one; the whole sentence stands below", () => {
    const sentence = ["Of 442 eyes, 60 failed, as far as is known."];
    const brief = ["60 of 442 failed."];
    expect(sentencesOf({ ...rateAnswer, sentence, brief })).toEqual({ brief, rest: sentence });
    expect(sentencesOf({ ...rateAnswer, sentence, brief: [...sentence] }).rest).toEqual([]);
    expect(sentencesOf({ ...rateAnswer, sentence })).toEqual({ brief: sentence, rest: [] });
  });

  it("is the first of an answer; the rest stands below", () => {
    const { brief, rest } = splitSentence([
      "Of 442 eyes, ",
      { text: "60 failed", pick: "f" },
      ": 13.6% (95% Wilson interval 10.7 to 17.1%). If all 23",
      " others failed, 18.8%.",
    ]);
    expect(sentenceText(brief)).toBe(
      "Of 442 eyes, 60 failed: 13.6% (95% Wilson interval 10.7 to 17.1%).",
    );
    expect(brief[1]).toEqual({ text: "60 failed", pick: "f" });
    expect(sentenceText(rest)).toBe("If all 23 others failed, 18.8%.");
  });

  it("is the whole where there is one sentence, decimals and all", () => {
    expect(splitSentence(["It rose by 1.5 lines."])).toEqual({
      brief: ["It rose by 1.5 lines."],
      rest: [],
    });
  });
});

describe("codes of people", () => {
  const answer = {
    ...rateAnswer,
    sentence: ["A surgeon, T1, stands out; so does surgeon A. PVR grade C is no person."],
    table: {
      columns: [{ label: "surgeon", kind: "text" as const }],
      rows: [[{ text: "A", value: "A" }], [{ text: "T1", value: "T1" }]],
    },
    cautions: [{ code: "small-numbers", text: "Small numbers in A, C and T1: read the interval." }],
  };

  it("become numbers wherever the working asks about people", () => {
    const hidden = withoutPeople(answer, ["failure_rate(eyes, by: surgeon)"], ["A", "C", "T1"]);
    expect(hidden.table.rows.map(([cell]) => cell?.text)).toEqual(["person 1", "person 3"]);
    expect(hidden.cautions[0]).toEqual({
      code: "small-numbers",
      text: "Small numbers in person 1, person 2 and person 3: read the interval.",
    });
    expect(hidden.sentence).toEqual([
      "A surgeon, person 3, stands out; so does surgeon person 1. PVR grade C is no person.",
    ]);
  });

  it("stay where it does not, unless a column is headed by them", () => {
    const columns = [{ label: "PVR grade", kind: "text" as const }];
    const graded = { ...answer, table: { ...answer.table, columns } };
    const working = "failure_rate(eyes, by: pvr_grade)";
    expect(withoutPeople(graded, [working], ["A", "C"])).toBe(graded);
    const [first] = withoutPeople(answer, [working], ["A", "C"]).table.rows;
    expect(first?.[0]?.text).toBe("person 1");
    expect(withoutPeople(answer, ["failure_rate(eyes, by: surgeon)"], [])).toBe(answer);
  });

  it("go where a working names one of them as a text", () => {
    const hidden = withoutPeople(answer, ['learning_curve(eyes, of: "T1")'], ["A", "C", "T1"]);
    expect(hidden.table.rows.map(([cell]) => cell?.text)).toEqual(["person 1", "person 3"]);
  });

  it("are told from articles, grades and statistics in any text", () => {
    const mask = maskOf(["A", "B", "C", "E", "T1"]);
    expect(mask("in the unit without E 48 of 377")).toBe("in the unit without person 4 48 of 377");
    expect(mask("surgeon E reviews their own eyes")).toBe(
      "surgeon person 4 reviews their own eyes",
    );
    expect(mask("A second surgeon reviews PVR grade C. B does not.")).toBe(
      "A second surgeon reviews PVR grade C. person 2 does not.",
    );
    expect(mask("the C-statistic and the C statistic")).toBe("the C-statistic and the C statistic");
    expect(mask("2026-04-14: T1 shows A the lists")).toBe(
      "2026-04-14: person 5 shows person 1 the lists",
    );
    expect(maskOf([])("surgeon E")).toBe("surgeon E");
  });

  it("are told in names of cells and of files", () => {
    const mask = maskOf(["C", "E", "T1"]);
    expect(mask("The curves (curve_E)")).toBe("The curves (curve_person 2)");
    expect(mask("surgeon-E.csv")).toBe("surgeon-person 2.csv");
    expect(mask("how_often, pvr_grade")).toBe("how_often, pvr_grade");
  });

  it("come back into what was written for a room that sees numbers", () => {
    const people = Array.from({ length: 12 }, (_, i) => `T${i + 1}`);
    const kept = "T2 and T12 look again";
    expect(maskOf(people)(kept)).toBe("person 2 and person 12 look again");
    expect(unmasked("person 12 and person 1 look again", kept, people)).toBe(
      "T12 and T1 look again",
    );
    expect(unmasked("person 2 asks", "ask person 2", people)).toBe("person 2 asks");
  });

  it("are looked for in all workings behind a cell", () => {
    const [how] = cellViews;
    const fed = {
      ...how!,
      name: "fed",
      working: "first_rows(by_surgeon)",
      feedsOn: ["by_surgeon"],
    };
    const by = { ...how!, name: "by_surgeon", working: "count_by(eyes, by: surgeon)", feedsOn: [] };
    const views = new Map([fed, by].map((view) => [view.name, view]));
    expect(workingsBehind("fed", views)).toEqual([fed.working, by.working]);
  });
});
