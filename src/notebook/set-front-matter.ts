import type { Matching } from "../cases/matching.ts";
import type { Computed } from "./computed.ts";
import { type Edit, refused, withLines } from "./edit.ts";
import { currentVersion, rootOf, type TextName, textKeys } from "./front-matter.ts";
import { placesIn } from "./front-matter-places.ts";
import type { Splice } from "./lines.ts";
import { contentOfMatching } from "./matching-of.ts";
import type { NotebookDocument } from "./notebook-document.ts";
import { writeYamlEntry, type YamlContent } from "./yaml-door.ts";
import { entrySplices } from "./yaml-splices.ts";

/** What stands on the title page; what is not given stays as it is. */
export type TitlePage = Readonly<Partial<Record<TextName, string>>>;

/** Writes what stands on the title page, each on one line; an empty text takes its key out. */
export function setTitlePage(notebook: NotebookDocument, page: TitlePage): Edit {
  const entries = [...textKeys].flatMap(([key, name]) => {
    const text = page[name]?.replace(/\s+/g, " ").trim();
    return text === undefined ? [] : [[key, text === "" ? undefined : text] as const];
  });
  return setEntries(notebook, entries);
}

/**
 * Keeps how the file's columns and values match the dictionary. Comments and the order of the
 * other keys stay; lines of entries that did not change stay as they are.
 */
export function setColumnsAndValues(notebook: NotebookDocument, matching: Matching): Edit {
  const { columns, values } = contentOfMatching(matching);
  return setEntries(notebook, [
    ["columns", columns.size === 0 ? undefined : columns],
    ["values", values.size === 0 ? undefined : values],
  ]);
}

/** Keeps the columns that are worked out in every row, in their order; none takes the key out. */
export function setComputed(notebook: NotebookDocument, computed: Computed): Edit {
  return setEntries(notebook, [["computed", computed.size === 0 ? undefined : computed]]);
}

type Entries = readonly (readonly [string, YamlContent | undefined])[];

/** Sets keys of the front matter, one after another; undefined takes a key out. */
function setEntries(notebook: NotebookDocument, entries: Entries): Edit {
  if (notebook.problems.some((problem) => problem.severity === "stop")) {
    return refused({
      code: "front-matter-not-read",
      place: { line: 1 },
      message: "The front matter cannot be changed while it cannot be read.",
      remedy: "mend what is wrong in it first",
    });
  }
  if (notebook.front.lines.to === 0) return addFrontMatter(notebook, entries);
  return entries.reduce<Edit>(
    (edit, [key, content]) => (edit.ok ? setEntry(edit.notebook, key, content) : edit),
    { ok: true, notebook },
  );
}

function setEntry(notebook: NotebookDocument, key: string, content: YamlContent | undefined): Edit {
  const { from, to } = notebook.front.lines;
  const places = placesIn(notebook.lines, { from: from + 1, to: to - 1 });
  const root = rootOf(places, []);
  if (root !== null) return withLines(notebook, entrySplices(places, root, [key, content]));
  if (content === undefined) return { ok: true, notebook };
  return withLines(notebook, [
    { at: to - 1, remove: 0, insert: writeYamlEntry(key, content, true) },
  ]);
}

function addFrontMatter(notebook: NotebookDocument, entries: Entries): Edit {
  const written = entries.flatMap(([key, content]) =>
    content === undefined ? [] : writeYamlEntry(key, content, true),
  );
  if (written.length === 0) return { ok: true, notebook };
  const first = notebook.lines[0]?.text ?? "";
  const mark = first.startsWith("\uFEFF") ? "\uFEFF" : "";
  const lines = [`${mark}---`, `holdfast: ${currentVersion}`, ...written, "---", ""];
  const splice: Splice =
    mark === ""
      ? { at: 0, remove: 0, insert: lines }
      : { at: 0, remove: 1, insert: [...lines, first.slice(1)] };
  return withLines(notebook, [splice]);
}
