import { definitionsOf, type NotebookDocument } from "../notebook/notebook-document.ts";
import type { CellText } from "./plan-cells.ts";

/** The cells of a notebook; one whose name is written twice is at fault, whichever it would be. */
export function cellTexts(document: NotebookDocument): CellText[] {
  const twice = document.problems.filter((problem) => problem.code === "name-twice");
  const cells = new Map<string, CellText>();
  for (const { name, working } of definitionsOf(document)) {
    const problems = twice
      .filter((problem) => problem.place.cell === name)
      .map((problem) => ({ ...problem, severity: "stop" as const }));
    if (!cells.has(name)) cells.set(name, { name, working, problems });
  }
  return [...cells.values()];
}
