import { actionsHeading } from "../../notebook/actions-heading.ts";
import type { BlockView, CellView, NotebookView } from "../protocol.ts";

/** One finding, with what whoever presents it wants at hand. */
export interface Finding {
  readonly view: CellView;
  /** The heading that it stands under; empty where there is none. */
  readonly section: string;
  /** The prose between the heading, or the row above, and the cell's row, in CommonMark. */
  readonly notes: readonly string[];
}

/** A page for each cell that has an answer, in the order of the sheet. */
export function findingsOf(
  notebook: NotebookView | undefined,
  cells: ReadonlyMap<string, CellView>,
): readonly Finding[] {
  const findings: Finding[] = [];
  let section = "";
  let notes: string[] = [];
  for (const block of notebook?.blocks ?? []) {
    if (block.type === "heading") [section, notes] = [block.text, []];
    else if (block.type === "prose") notes.push(block.text);
    else {
      for (const view of block.cells.flatMap((name) => cells.get(name) ?? [])) {
        if (view.answer !== undefined) findings.push({ view, section, notes });
      }
      notes = [];
    }
  }
  return findings;
}

/** The prose under the heading "Actions agreed", in CommonMark. */
export function actionsIn(blocks: readonly BlockView[]): readonly string[] {
  const from = blocks.findIndex((block) => block.type === "heading" && isActions(block.text));
  if (from < 0) return [];
  const rest = blocks.slice(from + 1);
  const end = rest.findIndex(({ type }) => type === "heading");
  return rest
    .slice(0, end < 0 ? rest.length : end)
    .flatMap((block) => (block.type === "prose" ? [block.text] : []));
}

/** What of the section stands in lists, an item each; what is not a list comes whole. */
export function actionItems(texts: readonly string[]): readonly ActionItem[] {
  return texts.flatMap((text): readonly ActionItem[] =>
    /^[-*+] /.test(text)
      ? text
          .split(/\n(?=[-*+] )/)
          .map((item) => ({ text: item.replace(/^[-*+] +/, ""), isItem: true }))
      : [{ text, isItem: false }],
  );
}

export interface ActionItem {
  readonly text: string;
  /** An action that can be changed, not prose between them. */
  readonly isItem: boolean;
}

/** Minutes planned, where the heading ends with them, as in "How often? (5 minutes)". */
export function minutesPlanned(section: string): number | undefined {
  const minutes = /\((\d{1,3}) min(?:utes?)?\)\s*$/.exec(section)?.[1];
  return minutes === undefined ? undefined : Number(minutes);
}

function isActions(text: string): boolean {
  return text.toLowerCase() === actionsHeading.toLowerCase();
}
