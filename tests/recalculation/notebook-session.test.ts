import { beforeEach, describe, expect, test } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import type { Vocabulary } from "../../src/formula/vocabulary.ts";
import { setTitlePage } from "../../src/notebook/set-front-matter.ts";
import { NotebookSession } from "../../src/recalculation/notebook-session.ts";
import { countCases } from "./count-cases.ts";
import { shown, words } from "./words.ts";

const notebook = `---
holdfast: 1
title: Detachments
columns:
  When: operation_date
  Side: eye
---
# How many?

    least = 1

    eyes = count_cases(cases)
      minuted 2026-03-14: 2
    more = eyes + least
`;

const file = "When;Side\n2025-01-02;right\n2025-01-03;left\n2025-01-04;right\n";
const bytes = (text: string) => new TextEncoder().encode(text);

const vocabulary: Vocabulary = new Map([...words, ["count_cases", countCases]]);

let session: NotebookSession<number>;
let readings: number;

beforeEach(() => {
  readings = 0;
  session = new NotebookSession<number>({
    vocabulary,
    version: "0.1.0",
    readCases: (caseFile, matching) => {
      readings += 1;
      return readCases(caseFile, { matching });
    },
    withSetting: (working, to) => (working === "1" ? String(to) : working),
  });
});

async function cells(): Promise<string[]> {
  await session.sheet.settled();
  return session.sheet.names().map((name) => `${name}: ${shown(session.sheet, name)}`);
}

function codes(problems: readonly { readonly code: string }[]): string[] {
  return problems.map((problem) => problem.code);
}

describe("opening", () => {
  test("a notebook, then its cases", async () => {
    expect(session.openNotebook("detachments.md", notebook)).toEqual([]);
    expect(await cells()).toEqual(["least: 1", "eyes: waits for cases", "more: waits for cases"]);
    session.openCases("cases.csv", bytes(file));
    expect(await cells()).toEqual(["least: 1", "eyes: 3", "more: 4"]);
    expect(session.sheet.because("eyes")).toBe("cases were opened");
    expect(session.caseReading?.rowsRead).toBe(3);
    expect(session.notebookText()).toBe(notebook);
    expect(readings).toBe(1);
  });

  test("what is refused changes nothing", async () => {
    session.openNotebook("detachments.md", notebook);
    session.openCases("cases.csv", bytes(file));
    const before = await cells();
    expect(codes(session.openNotebook("bad.md", "---\nholdfast: 2\n---\n"))).toEqual([
      "newer-version",
    ]);
    expect(session.openCases("bad.csv", new Uint8Array([0, 1, 2, 0, 255]))).not.toEqual([]);
    expect(await cells()).toEqual(before);
    expect([session.name, session.caseReading?.file.name]).toEqual(["detachments.md", "cases.csv"]);
    expect(session.undoName).toBe("open cases.csv");
  });

  test("a name written twice is a fault of its cell, whichever of the two is meant", async () => {
    session.openNotebook("a.md", "    a = 1\n    a = 2\n    b = a\n");
    expect(await cells()).toEqual(["a: fault: name-twice", "b: waits for a"]);
    session.removeCell("a");
    expect(await cells()).toEqual(["a: 2", "b: 2"]);
  });
});

describe("edits", () => {
  beforeEach(() => {
    session.openNotebook("detachments.md", notebook);
    session.openCases("cases.csv", bytes(file));
  });

  test("reach the text and the sheet, and can all be undone and done again", async () => {
    const texts = [session.notebookText()];
    const states = [await cells()];
    const acts: (() => unknown)[] = [
      () => session.setWorking("more", "eyes * 2"),
      () => session.setSetting("least", 5),
      () => session.addCell({ after: "more", name: "odd", working: "parity(more)", row: "same" }),
      () => session.renameCell("eyes", "cases_kept"),
      () => session.moveCell({ name: "least", beside: "odd", side: "behind", row: "new" }),
      () => session.addMinuted("odd", { day: 20526, text: "0" }),
      () =>
        session.edit("change the title", (document) =>
          setTitlePage(document, { title: "Detachments 2025" }),
        ),
      () =>
        session.setMatching({ columns: new Map([["Side", { field: "eye" }]]), values: new Map() }),
      () => session.removeCell("more"),
      () => session.openNotebook("other.md", "    x = count_cases(cases)\n"),
      () => session.openCases("other.csv", bytes("Side\nright\n")),
    ];
    for (const act of acts) {
      expect(act()).toBeDefined();
      texts.push(session.notebookText());
      states.push(await cells());
    }
    expect(new Set(texts).size).toBe(acts.length);
    expect(states.at(-1)).toEqual(["x: 1"]);
    for (let at = acts.length - 1; at >= 0; at--) {
      expect(session.undo()).toBe(true);
      expect(session.notebookText()).toBe(texts[at]);
      expect(await cells()).toEqual(states[at]);
    }
    for (let at = 1; at <= acts.length; at++) {
      expect(session.redo()).toBe(true);
      expect(session.notebookText()).toBe(texts[at]);
      expect(await cells()).toEqual(states[at]);
    }
    expect(session.redo()).toBe(false);
  });

  test("are named", () => {
    session.setSetting("least", 3);
    expect(session.undoName).toBe("set least");
    session.renameCell("eyes", "kept");
    session.undo();
    expect([session.undoName, session.redoName]).toEqual(["set least", "rename eyes to kept"]);
  });

  test("undo reaches back to the empty notebook without cases", async () => {
    while (session.undo());
    expect(await cells()).toEqual([]);
    expect([session.notebookText(), session.caseReading]).toEqual(["", undefined]);
  });

  test("that cannot be made say why, and are not in the history", () => {
    expect(codes(session.setWorking("nothing", "1"))).toEqual(["no-such-cell"]);
    expect(codes(session.renameCell("eyes", "least"))).toEqual(["name-taken"]);
    expect(session.setSetting("more", 3)).toEqual([]);
    expect(session.undoName).toBe("open cases.csv");
  });

  test("of the matching have the cases read again, others not", async () => {
    session.setWorking("more", "eyes");
    await session.sheet.settled();
    expect(readings).toBe(1);
    session.setMatching({ columns: new Map([["When", { leave: true }]]), values: new Map() });
    await session.sheet.settled();
    expect(readings).toBe(2);
    expect(session.sheet.because("eyes")).toBe("the columns were matched anew");
  });

  test("of a name leave a column of that name alone", async () => {
    session.addCell({ after: null, name: "eye", working: "eyes", row: "new" });
    session.addCell({
      after: null,
      name: "n",
      working: "count_cases(cases, by: eye) + eye",
      row: "new",
    });
    session.renameCell("eye", "count");
    expect(session.notebookText()).toContain("    n = count_cases(cases, by: eye) + count\n");
  });

  test("are heard of", () => {
    let heard = 0;
    const end = session.onChange(() => heard++);
    session.setWorking("more", "eyes");
    session.setWorking("more", "eyes");
    session.undo();
    expect(heard).toBe(2);
    end();
    session.redo();
    expect(heard).toBe(2);
  });
});

describe("what was minuted", () => {
  test("is compared with the cell as it stands", async () => {
    session.openNotebook("detachments.md", notebook);
    session.openCases("cases.csv", bytes(file));
    await session.sheet.settled();
    expect(session.minuted("eyes")).toEqual([
      { day: 20526, text: "2", verdict: "moved", was: "2", now: "3", because: [] },
    ]);
    expect(session.minuted("more")).toEqual([]);
  });
});
