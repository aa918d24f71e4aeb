import type { CaseReading } from "../cases/case-reading.ts";
import type { Matching } from "../cases/matching.ts";
import { rowSpansIn } from "../formula/names-in.ts";
import { parse } from "../formula/parse.ts";
import type { Vocabulary } from "../formula/vocabulary.ts";
import { addCell, type NewCell } from "../notebook/add-cell.ts";
import { addMinuted } from "../notebook/add-minuted.ts";
import type { Edit } from "../notebook/edit.ts";
import { History } from "../notebook/history.ts";
import { type Move, moveCell } from "../notebook/move-cell.ts";
import {
  definitionNamed,
  definitionsOf,
  type NotebookDocument,
} from "../notebook/notebook-document.ts";
import { readNotebook } from "../notebook/read-notebook.ts";
import { removeCell } from "../notebook/remove-cell.ts";
import { renameCell } from "../notebook/rename-cell.ts";
import { setColumnsAndValues, setTitle } from "../notebook/set-front-matter.ts";
import { setWorking } from "../notebook/set-working.ts";
import { writeNotebook } from "../notebook/write-notebook.ts";
import type { Problem } from "../problem/problem.ts";
import { casesThing } from "./cases-thing.ts";
import { checkMinuted, type MinutedCheck } from "./check-minuted.ts";
import { isSame } from "./is-same.ts";
import type { CellText } from "./plan-cells.ts";
import { createSheet, type Sheet } from "./sheet.ts";

export interface CaseFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** What the rooms beside and above hand in. */
export interface SessionParts<Change> {
  readonly vocabulary: Vocabulary;
  /** Reads a file as the notebook matches it. Never throws; no columns where it cannot be read. */
  readCases(file: CaseFile, matching: Matching): CaseReading;
  /** The working of a setting with a change made to it; the same text where it does not fit. */
  withSetting(working: string, change: Change): string;
}

/** Everything that an act can change, as it is after one of them. */
interface SessionState {
  readonly name: string;
  readonly document: NotebookDocument;
  readonly file: CaseFile | undefined;
}

interface MatchedReading {
  readonly matching: Matching;
  readonly reading: CaseReading;
}

type Problems = readonly Problem[];

/**
 * One notebook with its cases and its sheet: what the page's worker and the command line host.
 * Every act is named and can be undone, opening among them; one that cannot be done says why and
 * changes nothing.
 */
export class NotebookSession<Change> {
  readonly sheet: Sheet;
  readonly #parts: SessionParts<Change>;
  readonly #history: History<SessionState>;
  readonly #listeners = new Set<() => void>();
  /** By file: the matching it was read by last, and what that gave. */
  readonly #readings = new WeakMap<CaseFile, MatchedReading>();
  #file: CaseFile | undefined;
  #reading: CaseReading | undefined;

  constructor(parts: SessionParts<Change>) {
    this.#parts = parts;
    this.sheet = createSheet(parts.vocabulary);
    const { notebook } = readNotebook("");
    this.#history = new History<SessionState>({ name: "", document: notebook, file: undefined });
  }

  get name(): string {
    return this.#history.state.name;
  }

  get document(): NotebookDocument {
    return this.#history.state.document;
  }

  /** The cases as they were read last, or undefined where none were opened. */
  get caseReading(): CaseReading | undefined {
    return this.#reading;
  }

  /** The act that undo would take back. */
  get undoName(): string | undefined {
    return this.#history.undoName;
  }

  get redoName(): string | undefined {
    return this.#history.redoName;
  }

  notebookText(): string {
    return writeNotebook(this.document);
  }

  /** Opens another notebook. A problem that stops leaves everything as it was. */
  openNotebook(name: string, text: string): Problems {
    const { notebook, problems } = readNotebook(text, name);
    if (problems.some((problem) => problem.severity === "stop")) return problems;
    this.#act(`open ${name}`, { name, document: notebook });
    return problems;
  }

  /** Opens a file of cases. One of which nothing can be read leaves everything as it was. */
  openCases(name: string, bytes: Uint8Array): Problems {
    const file = { name, bytes };
    const reading = this.#readCases(file, this.document.front.matching);
    if (reading.cases.columns.length === 0) return reading.problems;
    this.#act(`open ${name}`, { file });
    return reading.problems;
  }

  setWorking(cell: string, working: string): Problems {
    return this.#edit(`change ${cell}`, (document) => setWorking(document, cell, working));
  }

  setSetting(cell: string, to: Change): Problems {
    return this.#edit(`set ${cell}`, (document) => {
      const working = definitionNamed(document, cell)?.working ?? "";
      return setWorking(document, cell, this.#parts.withSetting(working, to));
    });
  }

  addCell(cell: NewCell): Problems {
    return this.#edit(`add ${cell.name}`, (document) => addCell(document, cell));
  }

  removeCell(cell: string): Problems {
    return this.#edit(`remove ${cell}`, (document) => removeCell(document, cell));
  }

  moveCell(move: Move): Problems {
    return this.#edit(`move ${move.name}`, (document) => moveCell(document, move));
  }

  /** Workings follow; in arguments over rows, a column of that name stays what it is. */
  renameCell(cell: string, to: string): Problems {
    const isColumn = this.caseReading?.cases.positions.has(cell) ?? false;
    const columnsIn = (working: string) => {
      const { tree } = parse(working);
      return isColumn && tree !== null ? rowSpansIn(tree, this.#parts.vocabulary) : [];
    };
    return this.#edit(`rename ${cell} to ${to}`, (document) =>
      renameCell(document, { from: cell, to, columnsIn }),
    );
  }

  setTitle(title: string): Problems {
    return this.#edit("change the title", (document) => setTitle(document, title));
  }

  /** Keeps another matching in the notebook; the cases are read again by it. */
  setMatching(matching: Matching): Problems {
    return this.#edit("match the columns", (document) => setColumnsAndValues(document, matching));
  }

  /** Keeps what a meeting was told of a cell, on a day since 1970-01-01. */
  addMinuted(cell: string, minuted: { readonly day: number; readonly text: string }): Problems {
    return this.#edit(`minute ${cell}`, (document) => addMinuted(document, cell, minuted));
  }

  /** Any other edit of the notebook, under the name that undo tells. */
  edit(name: string, edit: (document: NotebookDocument) => Edit): Problems {
    return this.#edit(name, edit);
  }

  /** Each minuted line of a cell, with whether it still holds. */
  minuted(
    cell: string,
  ): readonly (MinutedCheck & { readonly day: number; readonly text: string })[] {
    const lines = definitionNamed(this.document, cell)?.minuted ?? [];
    const state = this.sheet.state(cell);
    return lines.map(({ day, text }) => ({ day, text, ...checkMinuted(text, state) }));
  }

  /** False where there is nothing to undo. */
  undo(): boolean {
    const done = this.#history.undo();
    if (done) this.#follow();
    return done;
  }

  redo(): boolean {
    const done = this.#history.redo();
    if (done) this.#follow();
    return done;
  }

  /** Calls the listener after every change of notebook or cases; what it gives back ends that. */
  onChange(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  dispose(): void {
    this.sheet.dispose();
    this.#listeners.clear();
  }

  #edit(name: string, edit: (document: NotebookDocument) => Edit): Problems {
    const edited = edit(this.document);
    if (!edited.ok) return edited.problems;
    if (edited.notebook !== this.document) this.#act(name, { document: edited.notebook });
    return [];
  }

  #act(name: string, change: Partial<SessionState>): void {
    this.#history.act(name, { ...this.#history.state, ...change });
    this.#follow();
  }

  /** Brings cases and sheet to where the history stands. */
  #follow(): void {
    const { document, file } = this.#history.state;
    this.#feed(file, file && this.#readCases(file, document.front.matching));
    this.sheet.setCells(cellTexts(document));
    for (const listener of this.#listeners) listener();
  }

  /** Reads the file again only where it was not read yet by this matching. */
  #readCases(file: CaseFile, matching: Matching): CaseReading {
    const before = this.#readings.get(file);
    if (before !== undefined && isSame(before.matching, matching)) return before.reading;
    const reading = this.#parts.readCases(file, matching);
    this.#readings.set(file, { matching, reading });
    return reading;
  }

  #feed(file: CaseFile | undefined, reading: CaseReading | undefined): void {
    if (reading === this.#reading) return;
    const sameFile = this.#reading !== undefined && this.#file === file;
    const opened = reading === undefined ? "cases were closed" : "cases were opened";
    this.#file = file;
    this.#reading = reading;
    const value = reading === undefined ? undefined : casesThing(reading);
    this.sheet.setInput("cases", value, sameFile ? "the columns were matched anew" : opened);
  }
}

/** The cells of a notebook; one whose name is written twice is at fault, whichever it would be. */
function cellTexts(document: NotebookDocument): CellText[] {
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
