import type { Parameter } from "../../formula/vocabulary.ts";
import type { CasesView, CellView } from "../protocol.ts";

/** What might be written in a field of the form: cells of a fitting kind, columns, choices. */
export function fieldChoices(
  parameter: Parameter,
  cells: Iterable<CellView>,
  cases: CasesView | undefined,
): readonly string[] {
  if (parameter.takes === "row") return columnNames(cases);
  const choices = (parameter.choices ?? []).map((choice) => JSON.stringify(choice));
  return [...choices, ...cellNames(parameter, cells)];
}

/** Names of the cells whose worth is of a kind that the parameter takes. */
export function cellNames(parameter: Parameter, cells: Iterable<CellView>): readonly string[] {
  const { kinds } = parameter;
  return [...cells]
    .filter(({ kind }) => kind !== undefined && (kinds.length === 0 || kinds.includes(kind)))
    .map(({ name }) => name);
}

function columnNames(cases: CasesView | undefined): readonly string[] {
  return (cases?.columns ?? []).flatMap(({ name }) => (name === undefined ? [] : [name]));
}
