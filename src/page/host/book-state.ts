import type { Problem } from "../../problem/problem.ts";
import type { Leaf } from "../act.ts";
import type { DepartmentsView } from "../departments-protocol.ts";
import type {
  CasesView,
  CellView,
  News,
  NotebookView,
  ProgressView,
  Replies,
  WordView,
} from "../protocol.ts";

export interface Notice {
  readonly id: number;
  readonly text: string;
  readonly problems: readonly Problem[];
}

/** The rows that the reader asked to see, and the number they stand behind. */
export interface Picked {
  readonly cell: string;
  readonly key: string;
  readonly title: string;
  readonly behind: NonNullable<Replies["pick"]>["behind"];
}

/** Lines of the file, and the number that they stand behind. */
export interface ShownLines {
  readonly title: string;
  readonly lines: readonly number[];
}

/** All that the page shows, as one plain value; what the host tells makes the next one. */
export interface BookState {
  readonly leaf: Leaf;
  readonly notebook?: NotebookView;
  readonly cells: ReadonlyMap<string, CellView>;
  readonly cases?: CasesView;
  readonly departments?: DepartmentsView;
  readonly words: readonly WordView[];
  readonly chosen?: string;
  readonly picked?: Picked;
  readonly deskFolded: boolean;
  /** The notebook was changed since it was opened or saved. */
  readonly unsaved: boolean;
  /** For a projector in a darkened room. */
  readonly dark: boolean;
  /** The meeting shows the codes of people; else numbers in their place. */
  readonly codesShown: boolean;
  /** Whether the notebook is kept on this device; undefined until it was changed. */
  readonly kept?: boolean;
  /** The three ways on stand over the sheet. */
  readonly firstMinute: boolean;
  /** Lines of the file to be shown among the cases. */
  readonly shownLines?: ShownLines;
  readonly progress?: ProgressView;
  readonly notices: readonly Notice[];
}

export const closedBook: BookState = {
  leaf: "sheet",
  cells: new Map(),
  words: [],
  deskFolded: false,
  unsaved: false,
  dark: false,
  codesShown: false,
  firstMinute: false,
  notices: [],
};

/** The state after a piece of news. */
export function afterNews(state: BookState, news: News): BookState {
  switch (news.tell) {
    case "notebook":
      return withNotebook(state, news.view);
    case "recalculating":
      return withCells(
        state,
        news.cells.flatMap((name) => recalculating(state.cells.get(name))),
      );
    case "cells":
      return withCells(state, news.views);
    case "cases":
      return { ...state, cases: news.view };
    case "departments":
      return withDepartments(state, news.view);
    case "progress":
      return withProgress(state, news.progress);
    case "broken":
      return withNotice(state, news.message, []);
  }
}

/** The state with a notice that stays until the reader puts it away. */
export function withNotice(
  state: BookState,
  text: string,
  problems: readonly Problem[],
): BookState {
  const id = (state.notices.at(-1)?.id ?? 0) + 1;
  return { ...state, notices: [...state.notices, { id, text, problems }] };
}

/** Names of the notebook's cells in reading order. */
export function cellOrder(notebook: NotebookView | undefined): readonly string[] {
  return rowsOf(notebook).flat();
}

/** Names of the notebook's cells, row by row. */
export function rowsOf(notebook: NotebookView | undefined): readonly (readonly string[])[] {
  return (notebook?.blocks ?? []).flatMap((block) => (block.type === "row" ? [block.cells] : []));
}

function withCells(state: BookState, views: readonly CellView[]): BookState {
  const cells = new Map(state.cells);
  for (const view of views) cells.set(view.name, view);
  return { ...state, cells };
}

function recalculating(view: CellView | undefined): CellView[] {
  return view === undefined ? [] : [{ ...view, status: "recalculating" }];
}

function withNotebook(state: BookState, notebook: NotebookView): BookState {
  const order = cellOrder(notebook);
  const cells = new Map([...state.cells].filter(([name]) => order.includes(name)));
  const { chosen: before, picked, ...rest } = state;
  const chosen = before && stillChosen(before, cellOrder(state.notebook), order);
  return {
    ...rest,
    notebook,
    cells,
    ...(chosen !== undefined && { chosen }),
    ...(chosen === before && picked?.cell === chosen && { picked }),
  };
}

/** The chosen cell; where it is gone, the one that stood behind it, or before it. */
function stillChosen(
  chosen: string,
  before: readonly string[],
  now: readonly string[],
): string | undefined {
  const at = before.indexOf(chosen);
  const nearest = [chosen, ...before.slice(at + 1), ...before.slice(0, Math.max(at, 0)).reverse()];
  return nearest.find((name) => now.includes(name));
}

function withDepartments(state: BookState, departments: DepartmentsView | null): BookState {
  const { departments: _, ...rest } = state;
  return departments === null ? rest : { ...rest, departments };
}

function withProgress(state: BookState, progress: ProgressView): BookState {
  const { progress: _, ...rest } = state;
  return progress.finished ? rest : { ...rest, progress };
}
