import type { Problem } from "../problem/problem.ts";
import type { ColumnPlan, MatchedHeadings } from "./match-columns.ts";
import { looksLikeNames, type PrivateKind, privateByValues } from "./private-column.ts";
import type { RawTable } from "./raw-table.ts";
import { readDays } from "./values/read-days.ts";

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
    if (isPrivate === undefined || plan.isLeft) return plan;
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
  const { spec } = plan;
  if (spec === undefined || spec.name === "patient") return undefined;
  const written = table.columns[plan.position]!;
  if (plan.isField) return spec.kind === "text" ? identifierIn(written, spec.name) : undefined;
  const found = privateByValues(written);
  if (found !== undefined) return found;
  if (spec.kind === "day")
    return areBirthDays(written, operationDays()) ? "date of birth" : undefined;
  const isText = spec.kind === "text" || spec.kind === "code";
  return isText && plan.by !== "notebook" && looksLikeNames(written) ? "name" : undefined;
}

/** Ids of rows may look like telephone numbers; surgeons and centres are not patients. */
function identifierIn(written: readonly string[], field: string): PrivateKind | undefined {
  const found = privateByValues(written);
  return field === "case" && found === "telephone number" ? undefined : found;
}

function operationDaysOf(
  table: RawTable,
  plans: readonly ColumnPlan[],
): readonly (number | null)[] {
  const plan = plans.find(({ spec }) => spec?.name === "operation_date");
  return plan === undefined ? [] : daysIn(table.columns[plan.position]!, plan);
}

function daysIn(written: readonly string[], plan: ColumnPlan): readonly (number | null)[] {
  const context = { heading: "", delimiter: ",", ...(plan.settled && { settled: plan.settled }) };
  return readDays(written, context).values as readonly (number | null)[];
}

/** Nearly all of them ten years or more before the operation: no other date of a case is. */
function areBirthDays(
  written: readonly string[],
  operationDays: readonly (number | null)[],
): boolean {
  const days = readDays(written, { heading: "", delimiter: "," }).values;
  const known = days.flatMap((day, row) => {
    const operated = operationDays[row];
    return typeof day === "number" && operated != null ? [operated - day] : [];
  });
  const longBefore = known.filter((gap) => gap >= tenYears).length;
  return known.length > 0 && longBefore >= 0.8 * known.length;
}

const tenYears = 3653;

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
