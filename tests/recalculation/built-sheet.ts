import { createSheet } from "../../src/recalculation/sheet.ts";

/** Built and run by itself in a test: tells what a cell comes to. */
const sheet = createSheet(new Map());
sheet.setCells([{ name: "a", working: "1 + 1" }]);
sheet.settled().then(() => {
  const state = sheet.state("a");
  const number = state.status === "current" && state.value.kind === "number" && state.value.number;
  (globalThis as unknown as { told: string }).told = `${state.status}: ${number}`;
});
