import type { SheetLeaf } from "../sheet/sheet-leaf.ts";

/** Prints the page once every chart of the sheet is drawn, those far from the window among them. */
export async function printBook(sheet: SheetLeaf | null): Promise<void> {
  sheet?.toggleAttribute("whole", true);
  await nextFrame();
  await nextFrame();
  await Promise.all(chartsIn(sheet).map((chart) => chart.drawn));
  window.print();
  sheet?.toggleAttribute("whole", false);
}

function nextFrame(): Promise<number> {
  return new Promise((done) => requestAnimationFrame(done));
}

function chartsIn(sheet: SheetLeaf | null): readonly HTMLElementTagNameMap["answer-chart"][] {
  const cells = [...(sheet?.renderRoot.querySelectorAll("sheet-cell") ?? [])];
  const answers = cells.flatMap((cell) => [...cell.renderRoot.querySelectorAll("cell-answer")]);
  return answers.flatMap((answer) => [...answer.renderRoot.querySelectorAll("answer-chart")]);
}
