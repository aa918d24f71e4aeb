import type { Problem } from "../problem/problem.ts";
import type { CaseReading, LeftOutRow } from "./case-reading.ts";
import { type CheckedCases, checkCases } from "./check-cases.ts";
import { type CorrectionsReport, correctionsLaid } from "./corrections/corrections-laid.ts";
import { layCorrections } from "./corrections/lay-corrections.ts";
import { alignOwnColumns } from "./joining/align-own-columns.ts";
import { type JoinedFiles, joinFiles } from "./joining/join-files.ts";
import type { FurtherFileKind } from "./joining/join-report.ts";
import type { Matching } from "./matching.ts";
import { noCases, rowsStopped } from "./no-cases.ts";
import { isReadable, type OpenedCases, type ReadableCases } from "./open-cases.ts";
import { placedProblems } from "./placed-problems.ts";
import { linesWithheld } from "./privacy/strayed-values.ts";
import { patientCodes, patientsWritten } from "./pseudonyms/patient-codes.ts";
import { codedPeople } from "./pseudonyms/people-codes.ts";
import { type CorrectedCases, type FileCases, readOpened } from "./read-opened.ts";
import type { ReadCasesOptions } from "./reading-options.ts";
import { tableOf } from "./table.ts";

export interface FurtherOpened<Opened = OpenedCases> {
  readonly as: FurtherFileKind;
  readonly matching: Matching | undefined;
  readonly opened: Opened;
}

/** Cases from one opened file, or from several put together: corrected, read, joined, checked. */
export function readOpenedFiles(
  first: OpenedCases,
  further: readonly FurtherOpened[],
  options: ReadCasesOptions,
): CaseReading {
  if (!isReadable(first)) return noCases(first, options.matching);
  const readable = further.filter(isReadableFile);
  const unreadable = further.map(({ opened }) => opened).filter((file) => !isReadable(file));
  const { files, problems: ofPeople } = codedPeople([
    first,
    ...readable.map(({ opened }) => opened),
  ]);
  const patients = patientCodes(files.map(patientsWritten), options.pseudonym);
  const corrected = correctFiles(files, patients.codes, options);
  const { lowVision, matching } = options;
  const read = corrected.map((file, i) =>
    readOpened(file, { lowVision, matching: i === 0 ? matching : readable[i - 1]!.matching }),
  );
  const withKinds = readable.map(({ as }, i) => ({ as, read: read[i + 1]! }));
  const joined = joinFiles(read[0]!, withKinds);
  const checked = checkCases(joined.cases, options.today);
  const problems = [...patients.problems, ...ofPeople];
  const parts = { corrected, read, unreadable, joined, checked, problems };
  return assemble(parts, options);
}

/** Everything that the stages of a reading gave. */
interface ReadingParts {
  /** One for each file that can be read. */
  readonly corrected: readonly CorrectedCases[];
  readonly read: readonly FileCases[];
  readonly unreadable: readonly OpenedCases[];
  readonly joined: JoinedFiles;
  readonly checked: CheckedCases;
  /** Of the codes of patients and of those who operated. */
  readonly problems: readonly Problem[];
}

function assemble(parts: ReadingParts, options: ReadCasesOptions): CaseReading {
  const { read, joined, checked } = parts;
  const [first] = read;
  const corrections = correctionsIn(parts, options);
  const leftOut = leftOutOf(parts);
  const { lines, fileOf } = checked.rows;
  const isJoined = read.length + parts.unreadable.length > 1;
  return {
    file: first!.facts,
    rowsRead: lines.length + leftOut.length,
    cases: tableOf(checked.columns),
    lines,
    leftOut,
    matching: first!.matching,
    columns: first!.columns,
    problems: problemsOf(parts, corrections?.problems ?? []),
    ...(corrections && {
      corrections: { applied: corrections.applied, notFitting: corrections.notFitting },
    }),
    ...(isJoined && {
      files: read.map(({ facts }) => facts),
      fileOf: fileOf ?? lines.map(() => 0),
      joins: joined.joins,
    }),
  };
}

function correctFiles(
  files: readonly ReadableCases[],
  codes: ReadonlyMap<string, string>,
  { corrections = [] }: ReadCasesOptions,
): readonly CorrectedCases[] {
  const corrected = files.map((opened) => {
    const { name, delimiter } = opened.facts;
    const { table, plans } = opened.matched;
    return { opened, laid: layCorrections({ name, delimiter, table, plans, codes }, corrections) };
  });
  return alignOwnColumns(corrected);
}

function correctionsIn(
  { corrected }: ReadingParts,
  { corrections }: ReadCasesOptions,
): CorrectionsReport | undefined {
  if (corrections === undefined) return undefined;
  const files = corrected.map((file) => ({
    file: file.opened.facts.name,
    fates: file.laid.fates,
    withheld: withheldIn(file),
  }));
  return correctionsLaid(corrections, files);
}

/** In the order of files, then of lines; named by file where there are several. */
function leftOutOf({ read, unreadable, joined, checked }: ReadingParts): readonly LeftOutRow[] {
  const files = [
    ...read.map(({ facts, leftOut }) => ({ file: facts.name, rows: leftOut })),
    ...unreadable.map((opened) => ({
      file: opened.facts.name,
      rows: [...opened.leftOut, ...rowsStopped(opened)],
    })),
  ];
  if (files.length === 1) return [...files[0]!.rows, ...checked.leftOut].sort(byLine);
  const [first] = files;
  const ofChecks = checked.leftOut.map((row) => ({ file: first!.file, ...row }));
  const later = [...joined.leftOut, ...ofChecks];
  return files.flatMap(({ file, rows }) =>
    [...rows.map((row) => ({ file, ...row })), ...later.filter((row) => row.file === file)].sort(
      byLine,
    ),
  );
}

function byLine(one: LeftOutRow, other: LeftOutRow): number {
  return one.line - other.line;
}

function problemsOf(parts: ReadingParts, ofCorrections: readonly Problem[]): readonly Problem[] {
  const { corrected, read, unreadable, joined, checked } = parts;
  const inFiles = [...read, ...unreadable].flatMap(({ facts, problems }) =>
    problems.map((problem) => ({ ...problem, place: { file: facts.name, ...problem.place } })),
  );
  const ofChecks = withoutUnread(checked.problems, inFiles);
  const all = [...parts.problems, ...inFiles, ...ofCorrections, ...joined.problems, ...ofChecks];
  const files = [
    ...corrected.map((file) => ({ name: file.opened.facts.name, withheld: withheldIn(file) })),
    ...unreadable.map(({ facts }) => ({ name: facts.name, withheld: new Set<number>() })),
  ];
  return placedProblems(all, files);
}

/** Of a value that could not be read it is not said again that it is missing. */
function withoutUnread(
  ofChecks: readonly Problem[],
  inFiles: readonly Problem[],
): readonly Problem[] {
  const placeIn = ({ place }: Problem) => JSON.stringify([place.file, place.line, place.field]);
  const unread = new Set(inFiles.map(placeIn));
  return ofChecks.filter(
    (problem) => problem.code !== "eye-not-known" || !unread.has(placeIn(problem)),
  );
}

function withheldIn({ opened }: CorrectedCases): ReadonlySet<number> {
  return linesWithheld(opened.matched.table, opened.matched.plans);
}

function isReadableFile(file: FurtherOpened): file is FurtherOpened<ReadableCases> {
  return isReadable(file.opened);
}
