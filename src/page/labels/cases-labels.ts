import { countText } from "./locale.ts";

const counted = (count: number, one: string, many: string) =>
  `${countText(count)} ${count === 1 ? one : many}`;

/** The words of the leaf of cases. */
export const casesLabels = {
  gridHelp:
    "Arrow keys move. Enter on a value corrects it; Enter on a heading sorts by it; Control with " +
    "the left or right arrow on a heading moves the column. Shift with the arrows marks several " +
    "values to copy, or to paste over as corrections.",
  casesTools: "Finding and choosing rows and columns",
  askedOf: (asks: number, guesses: number) => {
    const asked = `${counted(asks, "thing", "things")} in this file only you can say`;
    const guessed = `${counted(guesses, "heading was", "headings were")} guessed`;
    const parts = [asks > 0 ? asked : "", guesses > 0 ? guessed : ""];
    return `${parts.filter((part) => part !== "").join("; ")}.`;
  },
  goToAsked: "Go there",
  findNext: "Next",
  foundInLine: (line: number, column: string) => `Found in line ${line}, ${column}.`,
  searching: (text: string) => `Searching for “${text}” …`,
  foundNowhere: (text: string) => `“${text}” is in none of the rows and columns shown.`,
  condition: "Only rows where",
  conditionExample: 'for example technique = "scleral buckle" and age < 50',
  showThese: "Show these",
  allRows: "Show all rows",
  columnsShown: (shown: number, all: number) => `Columns (${shown} of ${all})`,
  showAllColumns: "Show all columns",
  showAllButFreeText: "Show all columns but free text",
  freeText: "free text, shown only where it is asked for",
  hideEmpty: "Hide those without a value",
  rowsShown: (shown: number, all: number) =>
    shown === all
      ? counted(all, "row", "rows")
      : `${countText(shown)} of ${counted(all, "row", "rows")}`,
  undecidedRows: (count: number) =>
    `${counted(count, "row is", "rows are")} not shown because it is missing whether they fit`,
  behindShown: (title: string) => `The rows behind “${title}”`,
  movedColumn: (label: string, position: number, all: number) =>
    `${label} is now column ${position} of ${all}.`,
  orderAsInFile: "Order as in the file",
  copiedRange: (rows: number, columns: number) =>
    `Copied ${counted(rows, "row", "rows")} by ${counted(columns, "column", "columns")}.`,
  copyNothing: "Go to a value first: what is marked is copied.",
  copying: (rows: number) => `Fetching ${counted(rows, "row", "rows")} to copy …`,
  copyOnceMore: "The rows are at hand now: copy once more.",
  pasteOutside: (count: number) =>
    `${counted(count, "value fell", "values fell")} outside the rows and columns shown and ${count === 1 ? "is" : "are"} left out.`,
  hasQuery: "queried",
  hasCorrection: "corrected",
  gridLegend: "An underline of dots marks a query, a bar at the left a correction.",

  correctTitle: "Correct a value",
  correctMany: (count: number) => `Correct ${counted(count, "value", "values")}`,
  correctWhere: (line: number, file: string | undefined) =>
    file === undefined ? `line ${line}` : `line ${line} of ${file}`,
  correctFrom: "In the file",
  correctTo: "Read it as",
  correctToHelp: "As it would be written in the file; left empty, it is not known.",
  correctWhy: "Why",
  correctWhyHelp: "What shows that the file is wrong, and where the right value is from.",
  correctDo: "Correct",
  correctNothing: "nothing",
  correctUnchanged: (count: number) =>
    `${counted(count, "value is", "values are")} already so in the file.`,
  correctWithout: "No row that can be corrected begins there: put it right in the file itself.",
  fileStays: "The file itself is not changed: corrections lie over it, and can be taken back.",

  computedTitle: "Computed columns",
  computedHelp:
    "Worked out in every row from the other columns, kept in the notebook, and used like any " +
    "column: by a question, in a condition, in the grid.",
  computedName: "Name",
  computedWorking: "Working",
  computedExample: "for example last_seen_date - operation_date",
  computedAdd: "Add the column",
  computedRemove: (name: string) => `Take out ${name}`,
  computedFaulty: "cannot be worked out",

  correctionsTitle: "Corrections",
  correctionsList: "Corrections, one a line",
  noCorrections: "No value was corrected. Press Enter on a value to correct it.",
  correctionColumns: ["row", "column", "in the file", "read as", "why", "day"],
  correctionMisfit: "no longer fits",
  correctionMisfits: (count: number) =>
    `${counted(count, "correction no longer fits", "corrections no longer fit")} the file and ${count === 1 ? "is" : "are"} not applied: the row is gone, or the file has another value there.`,
  takeBack: "Take back",
  takeBackThis: (field: string, row: string) => `Take back: ${field} of ${row}`,
  takeMisfits: "Take out those that no longer fit",
  saveCorrections: "Save the corrections",
  openCorrections: "Open corrections",
  unsavedCorrections: (count: number) =>
    `${counted(count, "correction is", "corrections are")} not saved as a file.`,
  earlierCorrections: (count: number, file: string) =>
    `${counted(count, "correction", "corrections")} of ${file}, which was open before, ${count === 1 ? "does" : "do"} not lie over these cases. Where a row is called the same and the value is the same, ${count === 1 ? "it" : "they"} would fit.`,
  layEarlier: "Lay them over these cases",

  problemsList: "What was found in the file, one a line",
  goToLine: (line: number) => `line ${line}`,
  queryLines: (count: number) => `${counted(count, "place", "places")}`,
  rowNotShown: "This row is among those left out; it can be corrected here.",

  matchHelp:
    "What was guessed is yours to confirm. What you say here is kept in the notebook, so that " +
    "the next file with these headings needs nothing.",
  confirmAll: "Confirm all of it",
  confirmed: "All of it is kept in the notebook.",
  confirmOne: "Right",
  changeMatch: "Change",
  changeMatchOf: (heading: string) => `Change what “${heading}” stands for`,
  confirmMatchOf: (heading: string, field: string) => `Right: “${heading}” is ${field}`,
  standsFor: (heading: string) => `“${heading}” stands for`,
  ownColumn: "A column of our own",
  leaveAside: "Leave it aside",
  ownKinds: {
    number: "numbers",
    truth: "yes or no",
    day: "days",
    code: "a few codes",
    codes: "several codes, parted by ;",
    text: "text",
    acuity: "acuity",
  },
  keepMatch: "Keep",

  asksTitle: "What only you can say",
  dayOrderAsk: (heading: string) => `In “${heading}”, which comes first?`,
  dayOrders: ["day first", "month first"],
  acuityAsk: (heading: string) => `The bare numbers in “${heading}” are`,
  acuityNotations: ["logMAR", "decimal", "letters"],
  suchAs: (texts: readonly string[]) => `such as ${texts.join(", ")}`,
  unmetHelp: "Values that nobody has met before. Say once what each stands for.",
  unmetColumns: ["column", "value", "rows"],
  unmetStandsFor: "stands for",
  unmetChoice: (written: string, field: string) => `“${written}” in ${field} stands for`,
  notSaid: "not said",

  filesTitle: "Further files",
  filesHelp:
    "A later export is put to these cases: operations that are in both become one row, and what " +
    "differs is listed. A follow-up file says what became of operations that are known.",
  addQuarter: "Add next quarter's file",
  addFollowUp: "Add a follow-up file",
  joinKinds: { operations: "operations", "follow-up": "follow-up" },
  joinCounts: {
    added: (count: number) => `${counted(count, "row", "rows")} new`,
    same: (count: number) => `${counted(count, "row", "rows")} the same`,
    changed: (count: number) => `${counted(count, "value", "values")} changed`,
    missing: (count: number) => `${counted(count, "earlier row is", "earlier rows are")} not in it`,
    leftOut: (count: number) => `${counted(count, "row", "rows")} left out`,
  },
  joinRead: (rows: number) => `${counted(rows, "row", "rows")} read`,
  changedFromTo: (from: string, to: string) => `${from} → ${to}`,
  missingKept: "Rows that are missing from the later file are kept.",

  whichSheet: (file: string) => `Which sheet of ${file} holds the cases?`,
  sheetRows: (count: number) => counted(count, "row", "rows"),
  sheetLikeliest: ", looks like a table of cases",

  codesTitle: "Codes of patients",
  codesNumbered:
    "Patients are numbered in order of appearance. With a key of your own, a patient has the " +
    "same code in every file that is read with it.",
  codesKeyed: "Codes are made with your key: the same patient has the same code in every file.",
  codesSecret:
    "Whoever has the key and a patient's number can work out the code. The key stays with you.",
  codesAndCorrections:
    "Corrections whose row is known by the patient's code belong to the codes that they were " +
    "made with.",
  makeKey: "Make a key and save it",
  saveKey: "Save the key again",
  openKey: "Open my key",
  withoutKey: "Number the patients again",
  keyFile: "key of patients' codes.txt",
} as const;
