import { describe, expect, test } from "vitest";
import { addMinuted } from "../../src/notebook/add-minuted.ts";
import type { Edit } from "../../src/notebook/edit.ts";
import { moveCell } from "../../src/notebook/move-cell.ts";
import { definitionNamed, type NotebookDocument } from "../../src/notebook/notebook-document.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { type CellWidth, setWidths } from "../../src/notebook/set-widths.ts";
import { setWorking } from "../../src/notebook/set-working.ts";
import { lineDiff, textOf } from "./line-diff.ts";

const example = `# Detachments

    when = attachment_curve(eyes,
        by: technique)
      across 7 of 12
      minuted 2026-03-14: 60 of 442
    why  = failure_causes(eyes)
`;

const read = (text: string) => readNotebook(text).notebook;
const changes = (edit: (notebook: NotebookDocument) => Edit) =>
  lineDiff(example, textOf(edit(read(example))));
const widths = (...all: CellWidth[]) => changes((notebook) => setWidths(notebook, all));

describe("the width of a cell", () => {
  test("is read beside the working, not as part of it", () => {
    const definition = definitionNamed(read(example), "when");
    expect(definition?.columns).toBe(7);
    expect(definition?.working).toBe("attachment_curve(eyes,\n  by: technique)");
    expect(definition?.minuted.map(({ text }) => text)).toEqual(["60 of 442"]);
    expect(definitionNamed(read(example), "why")?.columns).toBeUndefined();
  });
  test("changes its own line alone", () => {
    expect(widths({ name: "when", columns: 8 }, { name: "why", columns: 4 })).toEqual([
      "-      across 7 of 12",
      "+      across 8 of 12",
      "+      across 4 of 12",
    ]);
    expect(widths({ name: "when", columns: 7 })).toEqual([]);
    expect(widths({ name: "when", columns: null })).toEqual(["-      across 7 of 12"]);
  });
  test.each([0, 13, 2.5, Number.NaN])("cannot be %d columns", (columns) => {
    const edit = setWidths(read(example), [{ name: "why", columns }]);
    expect(edit.ok ? [] : edit.problems.map(({ code }) => code)).toEqual(["width-out-of-row"]);
  });
  test("stays when the working is written anew, and when something is minuted", () => {
    expect(changes((n) => setWorking(n, "when", "attachment_curve(eyes)"))).toEqual([
      "-    when = attachment_curve(eyes,",
      "-        by: technique)",
      "+    when = attachment_curve(eyes)",
    ]);
    expect(changes((n) => addMinuted(n, "when", { day: 20_000, text: "61 of 442" }))).toEqual([
      "+      minuted 2024-10-04: 61 of 442",
    ]);
  });
  test("goes with the cell", () => {
    const edit = moveCell(read(example), {
      name: "when",
      beside: "why",
      side: "behind",
      row: "same",
    });
    expect(edit.ok && definitionNamed(edit.notebook, "when")?.columns).toBe(7);
  });
  test("is not taken out of a working that is given", () => {
    const edit = setWorking(read(example), "why", "1 +\nacross 3 of 12");
    expect(edit.ok && definitionNamed(edit.notebook, "why")?.working).toBe("1 + across 3 of 12");
  });
});
