import type { CaseReading } from "../../cases/case-reading.ts";
import type { Correction } from "../../cases/corrections/correction.ts";
import { type WrittenRow, writtenRows } from "../../cases/corrections/written-row.ts";
import type { Problem } from "../../problem/problem.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import type { RowAt, ValueAt, ValueCorrected } from "../cases-protocol.ts";

type Session = NotebookSession<SettingChange>;

/** What the reader puts right, why, and on which day. */
export interface Correcting {
  readonly values: readonly ValueCorrected[];
  readonly why: string;
  /** Whole days since 1970-01-01. */
  readonly today: number;
}

/** Lays corrections over values of the cases; values that are already so are passed over. */
export function correctValues(session: Session, asked: Correcting): readonly Problem[] {
  const why = asked.why.trim();
  if (why === "") return [noReason];
  const corrections: Correction[] = [];
  for (const value of asked.values) {
    const written = rowAt(session, value);
    if (written === undefined) return [noSuchRow(value)];
    const from = written.values.get(value.field) ?? "";
    const to = value.to.trim();
    if (from === to) continue;
    const { field } = value;
    corrections.push({ row: written.row, field, from, to, why, correctedDay: asked.today });
  }
  if (corrections.length === 0) return [nothingToCorrect];
  return session.correct(nameOf(corrections, asked.values), corrections);
}

/** The texts that stand in the file with the corrections so far; null where there is no such row. */
export function writtenValues(
  session: Session,
  cells: readonly ValueAt[],
): readonly (string | null)[] {
  return cells.map((cell) => {
    const written = rowAt(session, cell);
    return written === undefined ? null : (written.values.get(cell.field) ?? "");
  });
}

function nameOf([first]: readonly Correction[], values: readonly ValueCorrected[]): string {
  return values.length === 1
    ? `correct ${first?.field} in line ${values[0]?.line}`
    : `correct ${values.length} values`;
}

type FindRow = (line: number) => WrittenRow | undefined;

/** Opened once for each reading: by file, its rows as they are written. */
const opened = new WeakMap<CaseReading, Map<string, FindRow>>();

function rowAt(session: Session, { file, line }: RowAt): WrittenRow | undefined {
  const { caseFile, caseReading, laid } = session;
  if (caseFile === undefined || caseReading === undefined) return undefined;
  const files = [caseFile, ...laid.further];
  const position = file === undefined ? 0 : files.findIndex(({ name }) => name === file);
  if (position < 0) return undefined;
  const { name } = files[position]!;
  const known = opened.get(caseReading) ?? new Map<string, FindRow>();
  opened.set(caseReading, known);
  const find = known.get(name) ?? openRows(session, position);
  known.set(name, find);
  return find(line);
}

function openRows({ caseFile, laid, document }: Session, position: number): FindRow {
  const files = [caseFile!, ...laid.further];
  const { corrections, codeOf } = laid;
  return writtenRows(
    { file: files[position]!, before: files.slice(0, position) },
    {
      matching: document.front.matching,
      corrections,
      ...(codeOf !== undefined && { pseudonym: codeOf }),
    },
  );
}

const noReason: Problem = {
  code: "correction-without-reason",
  severity: "stop",
  place: {},
  message: "a correction needs its reason.",
  expected: "why the value is wrong, and where the right one is from",
};

const nothingToCorrect: Problem = {
  code: "correction-changes-nothing",
  severity: "stop",
  place: {},
  message: "these values stand in the file already.",
};

function noSuchRow({ file, line }: RowAt): Problem {
  return {
    code: "correction-row-gone",
    severity: "stop",
    place: { ...(file !== undefined && { file }), line },
    message: "no row that can be corrected begins on this line.",
    remedy: "correct it in the file itself",
  };
}
