import { type Edit, editDefinition, refused, withLines } from "./edit.ts";
import { type Minuted, writeMinuted } from "./minuted.ts";
import type { NotebookDocument } from "./notebook-document.ts";

/** Adds a minuted line below a cell: what a meeting was told of it on a day since 1970-01-01. */
export function addMinuted(
  notebook: NotebookDocument,
  name: string,
  { day, text, restsOn }: Omit<Minuted, "line">,
): Edit {
  const told = text.replace(/\s+/g, " ").trim();
  if (told === "") {
    return refused({
      code: "nothing-minuted",
      place: { cell: name },
      message: "There is nothing to minute.",
      expected: "what the meeting was told, such as 60 of 442",
    });
  }
  return editDefinition(notebook, name, ({ indent, lines }) => {
    const insert = [`${indent}  ${writeMinuted(day, told, restsOn)}`];
    return withLines(notebook, [{ at: lines.to, remove: 0, insert }]);
  });
}
