import { formatDay } from "../cases/calendar-day.ts";
import type { CaseReading } from "../cases/case-reading.ts";
import { columnNamed, rowCount, type Table } from "../cases/table.ts";
import { type Block, definitionsOf, titleOf } from "../notebook/notebook-document.ts";
import { plainNumber } from "../questions/answering/wording.ts";
import type { Setting } from "../questions/setting.ts";
import { settingOf } from "../questions/settings/setting-of.ts";
import type { NotebookSession } from "../recalculation/notebook-session.ts";
import { actionsDue } from "./actions-due.ts";
import { definitionsUsed } from "./definitions-used.ts";
import { fieldsUsed } from "./fields-used.ts";
import { periodAsSet } from "./period-as-set.ts";
import type {
  LaidFile,
  NamedDigest,
  ReportBlock,
  ReportedCases,
  ReportInput,
} from "./report-input.ts";
import { rowKey, rowsOnLines } from "./sharing/rows-on-lines.ts";
import { withoutCodesOffered } from "./sharing/without-codes-offered.ts";

export interface ReportFacts {
  readonly version: string;
  /** SHA-256 of the file of cases, in hexadecimal. */
  readonly sha256: string;
  /** The files that lie over the cases, in their order; none where left out. */
  readonly laid?: readonly NamedDigest[];
  readonly dated?: string;
  /** In place of the session's own cases, where it rests on other files. */
  readonly cases?: ReportedCases;
}

/**
 * What the report of a session is made from. The session must be settled and have cases; without
 * cases, its own or others, this is our own mistake and throws.
 */
export function reportOfSession(
  session: NotebookSession<never>,
  { sha256, laid = [], cases, ...facts }: ReportFacts,
): ReportInput {
  const { document, sheet } = session;
  const { unit, madeBy, reader } = document.front;
  const period = periodAsSet(document);
  const states = definitionsOf(document).map(({ name }) => ({ name, state: sheet.state(name) }));
  const reported = cases ?? reportedCases(session, { sha256, laid });
  return {
    ...facts,
    title: titleOf(document),
    ...(period === undefined ? {} : { period }),
    ...(unit === undefined ? {} : { department: unit }),
    ...(madeBy === undefined ? {} : { madeBy }),
    ...(reader === undefined ? {} : { reader }),
    cases: reported,
    definitions: definitionsUsed(states),
    actions: actionsDue(states),
    blocks: document.blocks.map(reportBlock),
    cells: definitionsOf(document).map(({ name, working }) => {
      const setting = settingOf(working);
      const state = sheet.state(name);
      return {
        name,
        working: withoutCodesOffered(working, reported.people),
        state,
        minuted: session.minuted(name).map(({ day, text, because, ...check }) => ({
          day: formatDay(day),
          told: text,
          check,
          because,
        })),
        ...(setting === undefined ? {} : { setting: inWords(setting) }),
      };
    }),
  };
}

function reportedCases(
  session: NotebookSession<never>,
  { sha256, laid }: { readonly sha256: string; readonly laid: readonly NamedDigest[] },
): ReportedCases {
  const reading = session.caseReading;
  if (reading === undefined) throw new Error("a report was asked for without cases");
  return {
    file: reading.file,
    sha256,
    laid: laid.map((file) => withRows(file, reading)),
    ...correctionFacts(reading),
    rowsRead: reading.rowsRead,
    rowsKept: rowCount(reading.cases),
    rowsLeftOut: reading.leftOut.length,
    queries: reading.problems.filter((problem) => problem.severity === "query").length,
    fields: fieldsUsed(reading),
    problems: reading.problems,
    people: textsIn(reading.cases, peopleColumns),
    ids: textsIn(reading.cases, ["case", "patient"]),
    textColumns: reading.cases.columns
      .filter(({ kind, name }) => kind === "text" && !peopleColumns.includes(name))
      .map(({ name }) => name),
    ...rowsIn(reading),
  };
}

function rowsIn(reading: CaseReading): Pick<ReportedCases, "patientOf" | "rowsOnLines"> {
  const onLines = rowsOnLines(reading);
  const patients = columnNamed(reading.cases, "patient")?.values;
  const named = (patients ?? []).flatMap((patient, row): [number, string][] =>
    patient === null ? [] : [[rowKey(reading, row), String(patient)]],
  );
  return {
    ...(onLines === undefined ? {} : { rowsOnLines: onLines }),
    ...(patients === undefined ? {} : { patientOf: new Map(named) }),
  };
}

/** A list of corrections, and a file that could not be read, joined nothing. */
function withRows(file: NamedDigest, { joins = [] }: CaseReading): LaidFile {
  const join = joins.find((each) => each.file.name === file.name);
  return join === undefined ? file : { ...file, rowsRead: join.rowsRead };
}

function correctionFacts({ corrections }: CaseReading): Pick<ReportedCases, "corrections"> {
  if (corrections === undefined) return {};
  const { applied, notFitting } = corrections;
  return { corrections: { applied: applied.length, notFitting: notFitting.length } };
}

const peopleColumns: readonly string[] = ["surgeon", "supervisor"];

/** The different texts in columns. */
function textsIn(cases: Table, columns: readonly string[]): string[] {
  const texts = columns.flatMap((name) => columnNamed(cases, name)?.values ?? []);
  return [...new Set(texts.filter((text) => typeof text === "string"))];
}

function reportBlock(block: Block): ReportBlock {
  switch (block.type) {
    case "heading":
      return { type: "heading", level: block.level, text: block.text };
    case "prose":
      return block.form === "code"
        ? { type: "code", text: withoutFence(block.text) }
        : { type: "prose", text: block.text };
    case "row":
      return { type: "row", cells: block.definitions.map(({ name }) => name) };
  }
}

/** The lines between the marks of a fence; the text itself where it has none. */
function withoutFence(text: string): string {
  const fenced = /^ {0,3}(`{3,}|~{3,})[^\n]*\n([\s\S]*?)\n? {0,3}\1\s*$/.exec(text);
  return fenced?.[2] ?? text;
}

/** "%" as it stands, " months", " month" after 1; nothing for a bare number. */
function unitWords({ now, unit }: Extract<Setting, { readonly type: "number" }>): string {
  if (unit === undefined || unit === "%") return unit ?? "";
  return ` ${now === 1 ? unit.replace(/s$/, "") : unit}`;
}

/** What is chosen, as it reads on the sheet. */
function inWords(setting: Setting): string {
  switch (setting.type) {
    case "choice":
      return setting.options[setting.now] ?? "";
    case "number":
      return `${plainNumber(setting.now)}${unitWords(setting)}`;
    case "yes or no":
      return setting.now ? "yes" : "no";
    case "dates":
      return `${formatDay(setting.from)} to ${formatDay(setting.to)}`;
  }
}
