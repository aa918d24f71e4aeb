import type { CaseReading } from "../../cases/case-reading.ts";
import { fieldNamed } from "../../cases/dictionary.ts";
import { check } from "../../formula/check.ts";
import { type Completions, completionsAt } from "../../formula/complete.ts";
import { parse } from "../../formula/parse.ts";
import type { Problem } from "../../problem/problem.ts";
import type { Answered } from "../../questions/answer.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import { poolingInputs, poolingVocabulary as vocabulary } from "../../questions/vocabulary.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import type { CaseRow } from "../cases-protocol.ts";
import type { Replies, Request } from "../protocol.ts";
import { answeredIn } from "./answered-in.ts";
import { valueText } from "./value-text.ts";
import { wordViews } from "./word-views.ts";

type Session = NotebookSession<SettingChange>;

/** Answers a request that changes nothing. */
export function answerQuery(session: Session, request: Request): Replies[Request["ask"]] {
  switch (request.ask) {
    case "pick":
      return pick(answeredIn(session.sheet, request.cell), request.key);
    case "complete":
      return complete(session, request);
    case "check":
      return { problems: checkWorking(session, request.text) };
    case "case rows":
      return { rows: caseRows(session.caseReading, request) };
    case "words":
      return { words: wordViews() };
    case "notebook text":
      return { name: session.name, text: session.notebookText() };
    default:
      throw new Error(`the host has no answer to "${request.ask}"`);
  }
}

function pick(answered: Answered | undefined, key: string): Replies["pick"] {
  const picked = answered?.picks.get(key);
  if (answered === undefined || picked === undefined) return null;
  return { title: picked.title, behind: answered.record.describe(picked.rows) };
}

function complete(
  session: Session,
  { cell, text, offset }: Extract<Request, { ask: "complete" }>,
): Completions {
  const columns = (session.caseReading?.cases.columns ?? []).map(({ name, label }) => ({
    name,
    // a column of the department's own is told by its heading
    meaning: fieldNamed(name)?.meaning ?? label,
  }));
  const parts = (of: string) => partsOf(session, of);
  const cells = [...session.sheet.names().filter((name) => name !== cell), ...poolingInputs];
  return completionsAt(text, offset, { vocabulary, cells, columns, parts });
}

function partsOf(session: Session, cell: string): { name: string; meaning: string }[] {
  if (!session.sheet.names().includes(cell)) return [];
  const state = session.sheet.state(cell);
  if (state.status !== "current" || state.value.kind !== "thing") return [];
  return [...state.value.parts].map(([name, part]) => ({
    name,
    meaning: "meaning" in part ? part.meaning : part.kind,
  }));
}

function checkWorking(session: Session, text: string): readonly Problem[] {
  const { tree, problems } = parse(text);
  if (tree === null || problems.length > 0) return problems;
  return check(tree, { vocabulary, cells: new Set([...session.sheet.names(), ...poolingInputs]) });
}

function caseRows(
  reading: CaseReading | undefined,
  { from, count }: { readonly from: number; readonly count: number },
): CaseRow[] {
  if (reading === undefined) return [];
  return reading.lines.slice(from, from + count).map((line, i) => ({
    line,
    texts: reading.cases.columns.map((column) => valueText(column, column.values[from + i])),
  }));
}
