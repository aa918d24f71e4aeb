import type { LitElement } from "lit";
import type { AnswerChart } from "../sheet/answer-chart.ts";

/** Prints a leaf once every chart of it is drawn, those far from the window among them. */
export async function printBook(leaf: LitElement | null): Promise<void> {
  leaf?.toggleAttribute("whole", true);
  await nextFrame();
  await nextFrame();
  await Promise.all(chartsIn(leaf?.renderRoot).map((chart) => chart.drawNow()));
  window.print();
  leaf?.toggleAttribute("whole", false);
}

function nextFrame(): Promise<number> {
  return new Promise((done) => requestAnimationFrame(done));
}

/** Through all shadow roots. */
function chartsIn(root: ParentNode | undefined): readonly AnswerChart[] {
  return [...(root?.querySelectorAll("*") ?? [])].flatMap((element) =>
    element.localName === "answer-chart"
      ? [element as AnswerChart]
      : chartsIn(element.shadowRoot ?? undefined),
  );
}
