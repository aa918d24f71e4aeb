import type { CaseReading } from "../cases/case-reading.ts";
import type { Correction } from "../cases/corrections/correction.ts";
import type { FurtherFile } from "../cases/joining/read-case-files.ts";
import type { Matching } from "../cases/matching.ts";
import type { CaseFile } from "../cases/open-file.ts";
import { addCell, type NewCell } from "../notebook/add-cell.ts";
import { addMinuted } from "../notebook/add-minuted.ts";
import type { Edit } from "../notebook/edit.ts";
import { History } from "../notebook/history.ts";
import { type Move, moveCell } from "../notebook/move-cell.ts";
import { definitionNamed, type NotebookDocument } from "../notebook/notebook-document.ts";
import { readNotebook } from "../notebook/read-notebook.ts";
import { removeCell } from "../notebook/remove-cell.ts";
import { renameCell } from "../notebook/rename-cell.ts";
import { setColumnsAndValues, setComputed } from "../notebook/set-front-matter.ts";
import { setWorking } from "../notebook/set-working.ts";
import { writeNotebook } from "../notebook/write-notebook.ts";
import type { Problem } from "../problem/problem.ts";
import { CaseReadings } from "./case-readings.ts";
import { cellTexts } from "./cell-texts.ts";
import { ComputedCases, withComputed } from "./computed-cases.ts";
import { footingOf, type Ground, isFedBy } from "./footing-of.ts";
import { type LaidOver, nothingLaid, withLaid } from "./laid-over.ts";
import { type MinutedNow, minutedNow } from "./minuted-now.ts";
import { misfitsOf, unreadOf } from "./refused-cases.ts";
import { rowSpans } from "./row-spans.ts";
import type { SessionParts } from "./session-parts.ts";
import { emptyState, type SessionState } from "./session-state.ts";
import { createSheet, type Sheet } from "./sheet.ts";
import { type Given, SheetFeed } from "./sheet-feed.ts";

type Problems = readonly Problem[];
type Corrections = readonly Correction[];

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
  readonly #readings: CaseReadings;
  readonly #computed: ComputedCases;
  readonly #feed: SheetFeed;

  constructor(parts: SessionParts<Change>) {
    this.#parts = parts;
    this.sheet = createSheet(parts.vocabulary, parts.inputs, parts.turn);
    this.#feed = new SheetFeed(this.sheet, parts.inputs);
    this.#readings = new CaseReadings(parts.readCases);
    this.#computed = new ComputedCases(parts.vocabulary);
    this.#history = new History<SessionState>(emptyState());
  }

  get name(): string {
    return this.#history.state.name;
  }

  get document(): NotebookDocument {
    return this.#history.state.document;
  }

  /** The cases as they were read last, or undefined where none were opened. */
  get caseReading(): CaseReading | undefined {
    return this.#feed.reading;
  }

  /** The first file of cases, or undefined where none was opened. */
  get caseFile(): CaseFile | undefined {
    return this.#history.state.file;
  }

  /** Further files, corrections and the codes of patients. */
  get laid(): LaidOver {
    return this.#history.state.laid;
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

  /**
   * Opens a file of cases. One of which nothing can be read leaves everything as it was. Further
   * files and corrections belong to the file before: without a list of others there are none.
   */
  openCases(name: string, bytes: Uint8Array): Problems {
    return this.openFile({ name, bytes });
  }

  /** As `openCases`, of a file that was made ready for reading, with what is to be laid over it. */
  openFile(file: CaseFile, given: Partial<LaidOver> = {}): Problems {
    const { codeOf } = this.laid;
    const laid = withLaid(nothingLaid, { ...(codeOf && { codeOf }), ...given });
    const reading = this.#readings.read({ file, laid }, this.document.front.matching);
    if (reading.cases.columns.length === 0) return reading.problems;
    this.#act(`open ${file.name}`, { file, laid });
    return reading.problems;
  }

  /** Puts a further file to those before it. One that cannot be read leaves everything as it was. */
  addFile(file: FurtherFile): Problems {
    const further = [...this.laid.further, file];
    const refusal = (reading: CaseReading) => unreadOf(reading, { further, name: file.name });
    return this.#lay(`add ${file.name}`, { further }, refusal);
  }

  /** Lays corrections over the cases. One that does not fit refuses them all, and says why. */
  correct(name: string, corrections: Corrections): Problems {
    const all = [...this.laid.corrections, ...corrections];
    return this.#lay(name, { corrections: all }, (reading) => misfitsOf(reading, corrections));
  }

  /** Puts a list in place of the corrections there are; those that do not fit stay in it. */
  setCorrections(name: string, corrections: Corrections): Problems {
    return this.#lay(name, { corrections }, () => []);
  }

  /** From now on this gives the codes of patients; without it they are numbered. */
  setCodes(name: string, codeOf: LaidOver["codeOf"]): Problems {
    return this.#lay(name, { codeOf }, () => []);
  }

  /** Gives an input besides the cases its value; without one, all that it feeds waits for it. */
  give(name: string, input: string, given: Given | undefined): void {
    const others = [...this.#history.state.given].filter(([other]) => other !== input);
    this.#act(name, { given: new Map(given ? [...others, [input, given]] : others) });
  }

  /** What an input besides the cases was given last. */
  given(input: string): Given | undefined {
    return this.#history.state.given.get(input);
  }

  /** Reads the cases again where what they are read by knows more than before. */
  readAgain(): void {
    if (this.caseFile !== undefined) this.#readings.forget(this.caseFile);
    this.#follow();
  }

  setWorking(cell: string, working: string): Problems {
    return this.edit(`change ${cell}`, (document) => setWorking(document, cell, working));
  }

  setSetting(cell: string, to: Change): Problems {
    return this.edit(`set ${cell}`, (document) => {
      const working = definitionNamed(document, cell)?.working ?? "";
      return setWorking(document, cell, this.#parts.withSetting(working, to));
    });
  }

  addCell(cell: NewCell): Problems {
    return this.edit(`add ${cell.name}`, (document) => addCell(document, cell));
  }

  removeCell(cell: string): Problems {
    return this.edit(`remove ${cell}`, (document) => removeCell(document, cell));
  }

  moveCell(move: Move): Problems {
    return this.edit(`move ${move.name}`, (document) => moveCell(document, move));
  }

  /** Workings follow; in arguments over rows, a column of that name stays what it is. */
  renameCell(cell: string, to: string): Problems {
    const isColumn = this.caseReading?.cases.positions.has(cell) ?? false;
    const columnsIn = (working: string) =>
      isColumn ? rowSpans(working, this.#parts.vocabulary) : [];
    return this.edit(`rename ${cell} to ${to}`, (document) =>
      renameCell(document, { from: cell, to, columnsIn }),
    );
  }

  /** Keeps another matching in the notebook; the cases are read again by it. */
  setMatching(matching: Matching): Problems {
    return this.edit("match the columns", (document) => setColumnsAndValues(document, matching));
  }

  /**
   * Keeps a column that is worked out in every row of the cases, or takes it out without a working.
   * One that cannot be worked out is refused, and says why.
   */
  setComputed(column: string, working: string | undefined): Problems {
    const computed = withComputed(this.document.front.computed, column, working);
    const reading = this.#readWith(this.laid);
    const problems = reading && this.#computed.of(reading, computed).faults.get(column);
    return (
      problems ?? this.edit(`compute ${column}`, (document) => setComputed(document, computed))
    );
  }

  /** Keeps what a meeting was told of a cell, on a day since 1970-01-01, and what it rests on. */
  addMinuted(cell: string, minuted: { readonly day: number; readonly text: string }): Problems {
    const ground = this.#ground(cell);
    const told = { ...minuted, ...(ground && { restsOn: footingOf(cell, ground) }) };
    return this.edit(`minute ${cell}`, (document) => addMinuted(document, cell, told));
  }

  /** Any edit of the notebook, under the name that undo tells. */
  edit(name: string, edit: (document: NotebookDocument) => Edit): Problems {
    const edited = edit(this.document);
    if (!edited.ok) return edited.problems;
    if (edited.notebook !== this.document) this.#act(name, { document: edited.notebook });
    return [];
  }

  /** Each minuted line of a cell, with whether it still holds, and why not. */
  minuted(cell: string): readonly MinutedNow[] {
    const lines = definitionNamed(this.document, cell)?.minuted ?? [];
    const state = this.sheet.state(cell);
    return lines.map((line) => minutedNow(line, { cell, state, ground: this.#ground(cell) }));
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

  /** What a cell rests on as things are; nothing without cases, or where others feed it. */
  #ground(cell: string): Ground | undefined {
    const { document, sheet } = this;
    const cases = this.caseReading?.cases;
    const others = [...this.#history.state.given.keys()];
    if (cases === undefined || isFedBy(cell, others, { document, sheet })) return undefined;
    const corrections = this.laid.corrections.length;
    return { cases, corrections, document, sheet, version: this.#parts.version };
  }

  /** Lays something over the file, unless `refusal` finds in the reading that it cannot be. */
  #lay(
    name: string,
    change: Parameters<typeof withLaid>[1],
    refusal: (reading: CaseReading) => Problems,
  ): Problems {
    const laid = withLaid(this.laid, change);
    const reading = this.#readWith(laid);
    const problems = reading === undefined ? [] : refusal(reading);
    if (problems.length === 0) this.#act(name, { laid });
    return problems;
  }

  #readWith(laid: LaidOver): CaseReading | undefined {
    const file = this.caseFile;
    return file && this.#readings.read({ file, laid }, this.document.front.matching);
  }

  #act(name: string, change: Partial<SessionState>): void {
    this.#history.act(name, { ...this.#history.state, ...change });
    this.#follow();
  }

  /** Brings cases and sheet to where the history stands. */
  #follow(): void {
    const { document, file, laid, given } = this.#history.state;
    const read = this.#readWith(laid);
    const reading = read && this.#computed.of(read, document.front.computed).reading;
    this.#feed.feed({ file, laid }, reading, given);
    this.sheet.setCells(cellTexts(document));
    for (const listener of this.#listeners) listener();
  }
}
