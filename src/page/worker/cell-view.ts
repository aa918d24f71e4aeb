import { dayText } from "../../formula/calendar.ts";
import { parse } from "../../formula/parse.ts";
import type { Answer } from "../../questions/answer.ts";
import { settingOf } from "../../questions/settings/setting-of.ts";
import type { CellState } from "../../recalculation/cell-state.ts";
import type { MinutedCheck } from "../../recalculation/check-minuted.ts";
import type { CellView, MinutedView } from "../protocol.ts";
import { answeredOf } from "./answered-in.ts";
import { worthInWords } from "./worth-in-words.ts";

/** All that a cell's view is made from. */
export interface CellFacts {
  readonly name: string;
  readonly working: string;
  readonly state: CellState;
  readonly feeds: { readonly from: readonly string[]; readonly to: readonly string[] };
  readonly because: string;
  readonly minuted: readonly (MinutedCheck & { readonly day: number; readonly text: string })[];
}

/** A cell as the sheet and the desk show it. */
export function cellView({ name, working, state, feeds, because, minuted }: CellFacts): CellView {
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
    ...worthOf(state, answer),
    feedsOn: feeds.from,
    feeds: feeds.to,
    because,
    minuted: minuted.map(minutedView),
  };
}

function worthOf(state: CellState, answer: Answer | undefined): Partial<CellView> {
  if (state.status !== "current") return {};
  const { value } = state;
  const kind = value.kind === "thing" ? value.of : value.kind;
  return answer === undefined ? { kind, plain: worthInWords(value) } : { kind, answer };
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
  };
}

function nowOf(line: CellFacts["minuted"][number]): string | undefined {
  if (line.verdict === "moved") return line.now;
  return line.verdict === "cannot be checked" ? `not to be checked: ${line.why}` : undefined;
}
