import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { addCell } from "../../src/notebook/add-cell.ts";
import { addMinuted } from "../../src/notebook/add-minuted.ts";
import type { Edit } from "../../src/notebook/edit.ts";
import { moveCell } from "../../src/notebook/move-cell.ts";
import {
  definitionNamed,
  definitionsOf,
  type NotebookDocument,
} from "../../src/notebook/notebook-document.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { removeCell } from "../../src/notebook/remove-cell.ts";
import { setWorking, workingLines } from "../../src/notebook/set-working.ts";
import { lineDiff, textOf } from "./line-diff.ts";

const example = `# Detachments

    window        = 12 months${"  "}
    failure_means = "redetachment"

    eyes = index_eyes(cases,
      within: window)
      minuted 2026-03-14: 442
      minuted 2025-03-15: 401
    all  = index_eyes(cases)

Prose with window in it.

    how_often = failure_rate(eyes)
`;

function changes(edit: (notebook: NotebookDocument) => Edit, text = example): string[] {
  return lineDiff(text, textOf(edit(readNotebook(text).notebook)));
}

describe("setting a working changes its own lines alone", () => {
  test("a working of one line", () => {
    expect(changes((n) => setWorking(n, "failure_means", '"reoperation"'))).toEqual([
      '-    failure_means = "redetachment"',
      '+    failure_means = "reoperation"',
    ]);
  });
  test("several lines become one, and minuted lines stay", () => {
    expect(changes((n) => setWorking(n, "eyes", "index_eyes(cases)"))).toEqual([
      "-    eyes = index_eyes(cases,",
      "-      within: window)",
      "+    eyes = index_eyes(cases)",
    ]);
  });
  test("one line becomes several, without empty lines", () => {
    expect(
      changes((n) => setWorking(n, "how_often", "failure_rate(eyes,\r\n\n  by: a)  ")),
    ).toEqual([
      "-    how_often = failure_rate(eyes)",
      "+    how_often = failure_rate(eyes,",
      "+        by: a)",
    ]);
  });
  test("the same working changes nothing", () => {
    expect(changes((n) => setWorking(n, "window", "12 months"))).toEqual([]);
  });
  test("an empty working can be filled, and a working emptied", () => {
    expect(changes((n) => setWorking(n, "a", "1"), "    a =")).toEqual(["-    a =", "+    a = 1"]);
    expect(changes((n) => setWorking(n, "a", ""), "    a =  1\n")).toEqual([
      "-    a =  1",
      "+    a =",
    ]);
  });
  test("a cell that is not there is refused", () => {
    expect(textOf(setWorking(readNotebook(example).notebook, "nothing", "1"))).toBe(
      "The notebook has no cell named nothing.",
    );
  });
  test("any text is read back as it was set", () => {
    const parts = fc.constantFrom(
      "a",
      " ",
      "\n",
      "\r\n",
      "(",
      "= 1",
      "minuted 2026-03-14: x",
      "```",
      "# h",
      "- i",
      "\t",
    );
    const workings = fc.oneof(
      fc.string(),
      fc.string({ unit: "binary" }),
      fc.array(parts).map((some) => some.join("")),
    );
    fc.assert(
      fc.property(workings, (working) => {
        const edit = setWorking(readNotebook(example).notebook, "eyes", working);
        if (!edit.ok) throw new Error("refused");
        const { notebook } = edit;
        const others = definitionsOf(notebook).map(({ name }) => name);
        expect(others).toEqual(["window", "failure_means", "eyes", "all", "how_often"]);
        expect(definitionNamed(notebook, "eyes")?.working).toBe(workingLines(working).join("\n"));
        expect(definitionNamed(notebook, "eyes")?.minuted.map(({ text }) => text)).toEqual([
          "442",
          "401",
        ]);
      }),
      { numRuns: 1000, seed: 1 },
    );
  });
});

describe("adding a cell", () => {
  const cell = { name: "why", working: "failure_causes(eyes)" };
  test("beside another, its = below the others", () => {
    expect(changes((n) => addCell(n, { ...cell, after: "window", row: "same" }))).toEqual([
      "+    why           = failure_causes(eyes)",
    ]);
    expect(changes((n) => addCell(n, { ...cell, after: "eyes", row: "same" }))).toEqual([
      "+    why  = failure_causes(eyes)",
    ]);
  });
  test("in a row of its own below another", () => {
    expect(changes((n) => addCell(n, { ...cell, after: "eyes", row: "new" }))).toEqual([
      "+    why = failure_causes(eyes)",
      "+",
    ]);
  });
  test("behind a full row", () => {
    const full = "    a = 1\n    b = 2\n    c = 3\n    d = 4\nText\n";
    expect(changes((n) => addCell(n, { ...cell, after: "b", row: "same" }), full)).toEqual([
      "+",
      "+    why = failure_causes(eyes)",
      "+",
    ]);
  });
  test("at the end, in a text without a final line ending", () => {
    const text = "# Detachments\r\n\r\nText";
    const edit = addCell(readNotebook(text).notebook, { ...cell, after: null, row: "new" });
    expect(textOf(edit)).toBe(`${text}\r\n\r\n    why = failure_causes(eyes)`);
  });
  test("is refused where the name is taken, is no name, or there is no room", () => {
    const refusal = (name: string, text = example) =>
      textOf(addCell(readNotebook(text).notebook, { ...cell, name, after: null, row: "new" }));
    expect(refusal("eyes")).toBe("Another cell is named eyes already.");
    expect(refusal("90_days")).toBe("This cannot be the name of a cell.");
    expect(refusal("why", "```\nText\n")).toBe(
      "A cell cannot be added here: the text above it runs on to the end of the notebook.",
    );
  });
});

describe("removing a cell", () => {
  test("takes its minuted lines with it", () => {
    expect(changes((n) => removeCell(n, "eyes"))).toEqual([
      "-    eyes = index_eyes(cases,",
      "-      within: window)",
      "-      minuted 2026-03-14: 442",
      "-      minuted 2025-03-15: 401",
    ]);
  });
  test("alone in its row takes one empty line with it", () => {
    expect(changes((n) => removeCell(n, "how_often"))).toEqual([
      "-",
      "-    how_often = failure_rate(eyes)",
    ]);
    expect(textOf(removeCell(readNotebook("a\n\n    b = 1\n\nc\n").notebook, "b"))).toBe(
      "a\n\nc\n",
    );
    expect(textOf(removeCell(readNotebook("a\n\n    b = 1\nc\n").notebook, "b"))).toBe("a\n\nc\n");
  });
  test("undoes adding it", () => {
    const names = definitionsOf(readNotebook(example).notebook).map(({ name }) => name);
    for (const after of [...names, null]) {
      for (const row of ["same", "new"] as const) {
        const added = addCell(readNotebook(example).notebook, {
          name: "x",
          working: "1",
          after,
          row,
        });
        if (!added.ok) throw new Error("refused");
        expect(textOf(removeCell(added.notebook, "x"))).toBe(example);
      }
    }
  });
});

describe("moving a cell", () => {
  test("keeps its lines as they are", () => {
    expect(
      changes((n) =>
        moveCell(n, { name: "eyes", beside: "how_often", side: "behind", row: "same" }),
      ),
    ).toEqual([
      "-    eyes = index_eyes(cases,",
      "-      within: window)",
      "-      minuted 2026-03-14: 442",
      "-      minuted 2025-03-15: 401",
      "+    eyes = index_eyes(cases,",
      "+      within: window)",
      "+      minuted 2026-03-14: 442",
      "+      minuted 2025-03-15: 401",
    ]);
  });
  test("into a row of its own", () => {
    const text = "    a = 1\n    b = 2\n";
    const edit = moveCell(readNotebook(text).notebook, {
      name: "a",
      beside: "b",
      side: "behind",
      row: "new",
    });
    expect(textOf(edit)).toBe("    b = 2\n\n    a = 1\n");
  });
  test("behind itself is nothing", () => {
    expect(
      changes((n) => moveCell(n, { name: "all", beside: "all", side: "behind", row: "new" })),
    ).toEqual([]);
  });
});

describe("minuting", () => {
  test("adds one line below the cell", () => {
    const minuted = { day: 20526, text: " 60 of\n442 " };
    expect(changes((n) => addMinuted(n, "how_often", minuted))).toEqual([
      "+      minuted 2026-03-14: 60 of 442",
    ]);
    const edit = addMinuted(readNotebook(example).notebook, "how_often", minuted);
    if (!edit.ok) throw new Error("refused");
    expect(definitionNamed(edit.notebook, "how_often")?.minuted).toEqual([
      { day: 20526, text: "60 of 442", line: 14 },
    ]);
  });
  test("nothing is refused", () => {
    expect(changes((n) => addMinuted(n, "all", { day: 0, text: " " }))).toContain(
      "+There is nothing to minute.",
    );
  });
});

describe("line endings of lines that an edit does not touch", () => {
  test("stay as they are, mixed as they may be", () => {
    const text = "# a\r\n\n    b = 1\r    c = 2\r\n\r\nend";
    const edit = setWorking(readNotebook(text).notebook, "b", "1 +\n2");
    expect(textOf(edit)).toBe("# a\r\n\n    b = 1 +\n      2\n    c = 2\r\n\r\nend");
  });
});
