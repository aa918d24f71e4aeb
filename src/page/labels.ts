import type { MatchedColumn } from "../cases/case-reading.ts";
import type { Problem } from "../problem/problem.ts";
import type { Leaf } from "./act.ts";
import type { DepartmentsView } from "./departments-protocol.ts";
import { bookLabels } from "./labels/book-labels.ts";
import { casesLabels } from "./labels/cases-labels.ts";
import { chartLabels } from "./labels/chart-labels.ts";
import { departmentsLabels } from "./labels/departments-labels.ts";
import { keepingLabels } from "./labels/keeping-labels.ts";
import { countText } from "./labels/locale.ts";
import { meetingLabels } from "./labels/meeting-labels.ts";
import { sheetLabels } from "./labels/sheet-labels.ts";
import type { CasesView, CellView, Request } from "./protocol.ts";

/** What a cell that waits for cases or for aggregates asks the reader to open. */
const whatToOpen: ReadonlyMap<string, string> = new Map([
  ["cases", "Open a file of cases: aggregates of departments do not answer this."],
  ["departments", "Open the aggregates of departments (.json): cases do not answer this."],
]);

/** Every word of the page that is not the reader's own, in one place. */
export const labels = {
  product: "Holdfast",
  leaves: { cases: "Cases", sheet: "Sheet", meeting: "Meeting" } satisfies Record<Leaf, string>,
  changeTitle: "Change",
  titleName: "Title of the notebook",
  titlePage: {
    title: "Title",
    unit: "Unit",
    period: "Period",
    madeBy: "Made by",
    reader: "For",
  },
  keepTitlePage: "Keep it",
  leavesName: "Leaves of the book",
  staysHere: "nothing leaves this machine",
  noCases: "no cases yet",
  caution:
    "For audit and learning; not advice for a patient; local protocols and the judgement of " +
    "licensed practitioners come first.",
  cautionOfPeople: "A comparison of people is no measure of competence by itself.",

  invented: "Invented cases. Drop a CSV of your own, or paste it.",
  inventedNotebook: "Your cases; the title page still names an invented unit.",
  dropHere:
    "Let go to open: a CSV or workbook (.xlsx) of cases, a notebook (.md), or departments' " +
    "aggregates (.json)",
  tools: "Opening, saving and undoing",
  openCases: "Open my cases",
  saveNotebook: "Save the notebook",
  print: "Print",
  lightRoom: "Light room",
  darkRoom: "Dark room",
  undo: "Undo",
  redo: "Redo",
  nothingToUndo: "Nothing to undo",
  nothingToRedo: "Nothing to redo",
  pastedFile: "pasted cases.csv",
  putAway: "Put away",
  broken: (message: string) =>
    `Something in Holdfast itself went wrong (${message}). Nothing you wrote is lost: ` +
    "save the notebook before you go on.",
  notDone: (ask: Request["ask"]) => `This was not done (${ask}); nothing was changed.`,
  reading: (file: string) => `Reading ${file}`,
  working: "Working",

  sheetName: "Cells of the sheet",
  askAnother: "Ask another question",
  askAnotherName: "What would you like to know?",
  blankCell: "A cell of my own",
  cancel: "Cancel",
  emptySheet: "This notebook has no cells yet.",
  leftOut: (count: number, unit: "eyes" | "cases", reason: string) =>
    `${counted(count, unit.slice(0, -1), unit)} (${reason})`,
  leftOutTitle: "Left out",
  used: (count: number, unit: "eyes" | "cases") =>
    `${counted(count, unit.slice(0, -1), unit)} used`,
  showTable: "table",
  showChart: "chart",
  shownAs: "Shown as",
  behindNumber: (text: string) => `${text}: show the eyes behind it`,
  status: {
    current: "",
    recalculating: "recalculating",
    waiting: "waits",
    "at fault": "at fault",
  } satisfies Record<CellView["status"], string>,
  waitsFor: (names: readonly string[]) =>
    [`Waits for ${inWords(names)}.`, ...names.flatMap((name) => whatToOpen.get(name) ?? [])].join(
      " ",
    ),
  minuted: (date: string, text: string) => `Minuted ${date}: ${text}`,
  minutedHolds: "still so",
  minutedMoved: (now: string, because: readonly string[]) =>
    because.length === 0 ? `now ${now}` : `now ${now}; since then: ${because.join("; ")}`,
  yes: "yes",
  no: "no",
  from: "from",
  dayAsWritten: "a day such as 2025-03-31",
  to: "to",
  remedy: (text: string) => `Remedy: ${text}`,
  expected: (text: string) => `Expected ${text}.`,
  mend: (replacement: string) => `Put “${replacement}” there`,

  desk: "Desk",
  foldDesk: "Fold the desk away",
  unfoldDesk: "Open the desk",
  deskOf: (name: string | undefined) => (name === undefined ? "Desk" : `Desk: ${name}`),
  theQuestion: "The question",
  theWorking: "The working",
  theEyes: "The rows behind a number",
  eyesBehind: (title: string) => `The eyes behind “${title}”`,
  chooseCell: "Choose a cell to see its question, its working and the eyes behind its numbers.",
  pickNumber: "Pick an underlined number to see the eyes behind it.",
  noNumberToPick: "No number here opens to eyes of these cases.",
  ask: "Ask",
  notAQuestion: "This working is not a single question; change it as text.",
  apply: "Apply",
  rename: "Name",
  removeCell: "Remove this cell",
  feedsOn: (none: boolean) => (none ? "Feeds on nothing." : "Feeds on"),
  feeds: (none: boolean) => (none ? "Feeds no other cell." : "Feeds"),
  because: (text: string) => `Last recalculated because ${text}.`,
  line: "line",
  lines: (lines: readonly number[]) => lines.join(", "),
  rowsBehind: (count: number, shown: number) =>
    shown < count ? `${count} rows, the first ${shown} shown.` : counted(count, "row.", "rows."),
  /** The words of the vocabulary are written with underscores, as a person reads them without. */
  parameter: (name: string) => sentenceCase(name.replaceAll("_", " ")),
  whenLeftOut: (text: string) => `left out: ${text}`,
  editWorking: "Working of the cell; Enter applies it, Escape goes back to the sheet",

  fileTitle: "The file",
  columnsTitle: "How the headings were matched",
  certain: "Matched",
  guessed: "Guessed: please check",
  unmatched: "Not matched",
  problemsTitle: "Queries and problems",
  leftOutRows: "Rows left out",
  rowsTitle: "The rows",
  rowsOf: (file: string) => `Rows of ${file}`,
  fileName: "name",
  fileSize: "size",
  fileEncoding: "encoding",
  fileDelimiter: "values parted by",
  delimiters: { ",": "comma", ";": "semicolon", "\t": "tab", "|": "upright line" },
  rowsRead: "rows read",
  rowsLeftOut: "rows left out",
  casesKept: "cases kept",
  eyes: "eyes",
  andMore: (count: number) => ` and ${count} more`,
  inLines: (count: number) => (count === 1 ? "line" : "lines"),
  firstOf: (shown: number, count: number) => `The first ${shown} of ${count}.`,
  found: (text: string) => `Found ${text === "" ? "nothing" : `“${text}”`}.`,
  severity: { stop: "row left out", query: "query", note: "note" } satisfies Record<
    Problem["severity"],
    string
  >,
  matching: {
    notebook: "the notebook",
    name: "its name",
    spelling: "a known spelling",
    guess: "a guess",
    unmatched: "nothing",
    dropped: "left aside as private",
  } satisfies Record<MatchedColumn["by"], string>,
  nothingLeftOut: "No row was left out.",
  noProblems: "No query.",
  heading: "heading",
  field: "field",
  matchedBy: "matched by",
  sample: "values, for example",
  missing: "missing",
  noCasesYet: "No cases are open.",

  ...bookLabels,
  ...casesLabels,
  ...departmentsLabels,
  ...keepingLabels,
  ...sheetLabels,
  ...chartLabels,
  ...meetingLabels,
} as const;

/** "3 departments, 1,070 eyes" */
export function departmentsInBrief({ departments }: DepartmentsView): string {
  const eyes = departments.flatMap(({ eyes }) => eyes ?? []);
  const all = eyes.reduce((sum, each) => sum + each, 0);
  return [
    counted(departments.length, "department", "departments"),
    ...(eyes.length < departments.length ? [] : [counted(all, "eye", "eyes")]),
  ].join(", ");
}

/** "486 rows, 442 eyes, 11 queries" */
export function casesInBrief(cases: CasesView): string {
  const queries = cases.problems.filter(({ severity }) => severity === "query").length;
  return [
    counted(cases.rowsRead, "row", "rows"),
    ...(cases.eyes === undefined ? [] : [counted(cases.eyes, "eye", "eyes")]),
    counted(queries, "query", "queries"),
  ].join(", ");
}

export function counted(count: number, one: string, many: string): string {
  return `${countText(count)} ${count === 1 ? one : many}`;
}

/** "a", "a and b", "a, b and c" */
export function inWords(names: readonly string[]): string {
  if (names.length < 2) return names.join("");
  return `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

/** Begins with a capital; what is quoted from a working stays as it is written. */
export function sentenceCase(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
