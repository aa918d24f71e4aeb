import type { Problem } from "../../problem/problem.ts";
import type { ColumnSpec } from "../field.ts";
import type { ColumnPlan, MatchedHeadings } from "../match-columns.ts";
import type { RawTable } from "../raw-table.ts";
import { readDays } from "../values/read-days.ts";
import type { WrittenColumn } from "../written-column.ts";
import { areBirthDays } from "./birth-days.ts";
import { looksLikeNames } from "./names-of-people.ts";
import type { PrivateKind } from "./private-kind.ts";
import { privateByValues } from "./private-values.ts";

/**
 * Drops every column that tells who a person is, by its heading or its values, unless it is
 * matched to `patient`, where it becomes a pseudonym. Nothing of it is shown, not even a sample.
 */
export function dropPrivate(table: RawTable, matched: MatchedHeadings): MatchedHeadings {
  let days: readonly (number | null)[] | undefined;
  const operationDays = () => {
    days ??= operationDaysOf(table, matched.plans);
    return days;
  };
  const problems: Problem[] = [];
  const plans = matched.plans.map((plan): ColumnPlan => {
    const isPrivate = plan.isPrivate ?? privateKindOf(plan, table, operationDays);
    if (isPrivate === undefined) return plan;
    if (plan.isLeft) return { ...plan, isPrivate };
    problems.push(dropped(table.headings[plan.position]!, isPrivate));
    return { position: plan.position, by: "dropped", isField: false, isPrivate };
  });
  return { plans, problems: [...matched.problems, ...problems] };
}

function privateKindOf(
  plan: ColumnPlan,
  table: RawTable,
  operationDays: () => readonly (number | null)[],
): PrivateKind | undefined {
  const written = table.columns[plan.position]!;
  if (plan.isField) return privateField(written, plan.spec!);
  const found = privateByValues(written.different);
  if (found !== undefined) return found;
  const kind = plan.spec?.kind ?? "text";
  const isText = kind === "text" || kind === "code";
  if ((isText || kind === "day") && areBirthDays(written, operationDays())) return "date of birth";
  return isText && plan.by !== "notebook" && looksLikeNames(written) ? "name" : undefined;
}

/**
 * What is in a field of text. Ids of rows may look like telephone numbers, and one or two of them
 * have a right check digit by luck; surgeons and centres are not patients.
 */
function privateField(written: WrittenColumn, spec: ColumnSpec): PrivateKind | undefined {
  if (spec.kind !== "text" || spec.name === "patient") return undefined;
  const found = privateByValues(written.different);
  if (spec.name !== "case") return found;
  if (found === undefined) return looksLikeNames(written) ? "name" : undefined;
  const isLuck = found === "health-service number" && written.different.length < 3;
  return found === "telephone number" || isLuck ? undefined : found;
}

function operationDaysOf(
  table: RawTable,
  plans: readonly ColumnPlan[],
): readonly (number | null)[] {
  const plan = plans.find(({ spec }) => spec?.name === "operation_date");
  if (plan === undefined) return [];
  const context = { heading: "", delimiter: ",", ...(plan.settled && { settled: plan.settled }) };
  const { values } = readDays(table.columns[plan.position]!, context);
  return values as readonly (number | null)[];
}

function dropped(heading: string, isPrivate: PrivateKind): Problem {
  const isIdentifier = isPrivate === "health-service number" || isPrivate === "name";
  return {
    code: "private-column",
    severity: "query",
    place: { field: heading },
    message: `this column looks like ${isPrivate === "e-mail address" || isPrivate === "address" ? "an" : "a"} ${isPrivate}; it was dropped, and is neither shown nor kept.`,
    expected: "nothing that tells who a patient is",
    remedy: isIdentifier
      ? "leave it out of the file, or match it to patient, where a pseudonym stands for it"
      : "leave it out of the file",
  };
}
