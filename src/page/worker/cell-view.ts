import { dayText } from "../../formula/calendar.ts";
import { parse } from "../../formula/parse.ts";
import type { Thing, Value } from "../../formula/value.ts";
import type { Answer } from "../../questions/answer.ts";
import { settingOf } from "../../questions/settings/setting-of.ts";
import { tablePreview } from "../../questions/tables/table-preview.ts";
import type { TableValue } from "../../questions/tables/table-value.ts";
import type { CellState } from "../../recalculation/cell-state.ts";
import type { MinutedNow } from "../../recalculation/minuted-now.ts";
import type { CellView, DatePreset, MinutedView } from "../protocol.ts";
import { answeredOf } from "./answered-in.ts";
import { worthInWords } from "./worth-in-words.ts";

/** All that a cell's view is made from. */
export interface CellFacts {
  readonly name: string;
  readonly working: string;
  readonly state: CellState;
  readonly feeds: { readonly from: readonly string[]; readonly to: readonly string[] };
  readonly because: string;
  readonly minuted: readonly MinutedNow[];
  /** How many of the twelve columns of its row it is given. */
  readonly columns: number | undefined;
  /** Ranges of dates to choose from, where it is a setting of dates. */
  readonly presets: readonly DatePreset[];
}

/** A cell as the sheet and the desk show it. */
export function cellView(facts: CellFacts): CellView {
  const { name, working, state, feeds, because, minuted, columns, presets } = facts;
  const setting = settingOf(working);
  const answer = answeredOf(state)?.answer;
  return {
    name,
    nature: setting === undefined ? natureOf(working) : "setting",
    working,
    status: state.status,
    waitsFor: state.status === "waiting" ? state.waitsFor : [],
    problems: state.status === "at fault" ? state.problems : [],
    ...(setting !== undefined && { setting }),
    ...(setting?.type === "dates" && { presets }),
    ...worthOf(state, answer),
    feedsOn: feeds.from,
    feeds: feeds.to,
    because,
    minuted: minuted.map(minutedView),
    ...(columns !== undefined && { columns }),
  };
}

function worthOf(state: CellState, answer: Answer | undefined): Partial<CellView> {
  if (state.status !== "current") return {};
  const { value } = state;
  const kind = value.kind === "thing" ? value.of : value.kind;
  const told = toMinute(value, answer);
  return {
    kind,
    ...(answer === undefined ? { plain: worthInWords(value) } : { answer }),
    ...(told !== undefined && { toMinute: told }),
    ...(isTable(value) && { preview: tablePreview(value.content as TableValue) }),
  };
}

function isTable(value: Value): value is Thing {
  return value.kind === "thing" && value.of === "table";
}

/** What a minuted line would say, as it is checked later. */
function toMinute(value: Value, answer: Answer | undefined): string | undefined {
  if (value.kind === "number") return worthInWords(value);
  const headline = answer?.figures.headline;
  return typeof headline === "string" ? headline : undefined;
}

/** "failure rate" for a call of `failure_rate`, else "value". */
function natureOf(working: string): string {
  const { tree } = parse(working);
  return tree?.type === "call" ? tree.word.replaceAll("_", " ") : "value";
}

function minutedView(line: CellFacts["minuted"][number]): MinutedView {
  const { day, text, verdict } = line;
  const now = nowOf(line);
  return {
    date: dayText(day),
    text,
    holds: verdict === "holds",
    ...(now !== undefined && { now }),
    because: line.because,
  };
}

function nowOf(line: CellFacts["minuted"][number]): string | undefined {
  if (line.verdict === "moved") return line.now;
  return line.verdict === "cannot be checked" ? `not to be checked: ${line.why}` : undefined;
}
