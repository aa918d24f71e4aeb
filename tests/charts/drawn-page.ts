import { attachmentCurveChart } from "../../src/charts/attachment-curve-chart.ts";
import { drawChart } from "../../src/charts/draw-chart.ts";
import { paperTheme } from "../../src/charts/theme.ts";
import { chartToSvg } from "../../src/charts/to-svg.ts";
import { exampleCurves, exampleGroup, hostileLabels, techniques } from "./example-charts.ts";

/** A page that draws one chart in two ways and notes what was picked. */
const groups = [...techniques, hostileLabels[0]!].map((label, i) => {
  const group = exampleGroup(label, i * 0.03);
  const steps = group.steps.map((step) => ({ ...step, pick: `step-${step.time}` }));
  return i === 0 ? { ...group, steps } : group;
});
const chart = attachmentCurveChart(exampleCurves(groups), { width: 780 });
const picked: string[] = [];

const drawn = await drawChart(byId("here"), chart, { theme: paperTheme });
drawn.onPick((pick) => {
  picked.push(pick);
  document.body.dataset.picked = JSON.stringify(picked);
});
byId("destroy").addEventListener("click", () => drawn.destroy());
byId("outside").innerHTML = await chartToSvg(chart, { theme: paperTheme, prefix: "c1" });
await document.fonts.ready;
document.body.dataset.drawn = "yes";

function byId(id: string): HTMLElement {
  const element = document.getElementById(id);
  if (!element) throw new Error(`The page has no element "${id}".`);
  return element;
}
