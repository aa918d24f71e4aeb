import { expect, test } from "vitest";
import { tableOf } from "../../../src/cases/table.ts";
import { workingLabel } from "../../../src/questions/answering/working-label.ts";

const table = tableOf([
  { name: "symptom_days", label: "symptom days", kind: "number", values: [] },
  { name: "median", label: "middle", kind: "number", values: [] },
]);

test.each([
  ["symptom_days", "symptom days"],
  ["median(symptom_days)", "median symptom days"],
  ["median(median)", "median middle"],
  ["band(symptom_days, [7, 30])", "symptom days in bands"],
  ['group_values(\n  lens,\n  "a, (b",\n  ["x"]\n)', "lens in groups"],
  ['share(macula = "off")', 'share: macula = "off"'],
  ['share(contains(note, ")"))', 'share: contains(note, ")")'],
  ["first_of_month(operation_date)", "month of operation_date"],
  ["median(a) - median(b)", "median(a) - median(b)"],
  ["quantile(symptom_days, 10%)", "quantile(symptom_days, 10%)"],
  ["max(symptom_days, median)", "max(symptom_days, median)"],
  ["symptom_days > 7", "symptom_days > 7"],
  ["constructor(symptom_days)", "constructor(symptom_days)"],
])("the working %j is headed %j", (text, label) => {
  expect(workingLabel(table, text)).toBe(label);
});
