import type { ColumnPlan } from "../match-columns.ts";
import { ownColumnKind } from "../own-column.ts";
import type { CorrectedCases } from "../read-opened.ts";
import type { ColumnKind } from "../table.ts";
import { WrittenColumn } from "../written-column.ts";

/**
 * Gives each column of the department's own one kind in all files, decided by all its values as
 * they stand after corrections. What the notebook says of its kind goes first.
 */
export function alignOwnColumns(files: readonly CorrectedCases[]): readonly CorrectedCases[] {
  const kinds = new Map<string, ColumnKind>();
  for (const [name, places] of ownColumns(files)) {
    const kind = commonKind(places);
    if (kind !== undefined) kinds.set(name, kind);
  }
  if (kinds.size === 0) return files;
  return files.map(({ opened, laid }) => {
    const plans = laid.plans.map((plan) => withKind(plan, kinds));
    return { opened, laid: { ...laid, plans } };
  });
}

interface OwnColumn {
  readonly file: CorrectedCases;
  readonly plan: ColumnPlan;
}

function ownColumns(files: readonly CorrectedCases[]): ReadonlyMap<string, readonly OwnColumn[]> {
  const byName = new Map<string, OwnColumn[]>();
  for (const file of files) {
    for (const plan of file.laid.plans) {
      if (plan.spec === undefined || plan.isField) continue;
      byName.set(plan.spec.name, [...(byName.get(plan.spec.name) ?? []), { file, plan }]);
    }
  }
  return byName;
}

/** The kind to take, or undefined where nothing has to change. */
function commonKind(places: readonly OwnColumn[]): ColumnKind | undefined {
  const told = places.find(({ plan }) => plan.by === "notebook");
  const kinds = new Set(places.map(({ plan }) => plan.spec!.kind));
  if (told !== undefined) return kinds.size > 1 ? told.plan.spec!.kind : undefined;
  const isChanged = places.some(({ file, plan }) => file.laid.changed.has(plan.position));
  if (kinds.size === 1 && !isChanged) return undefined;
  const written = WrittenColumn.joined(
    places.map(({ file, plan }) => file.laid.table.columns[plan.position]!),
  );
  const withSemicolons = places.some(({ file }) => file.opened.facts.delimiter === ";");
  return ownColumnKind(written, withSemicolons ? ";" : ",");
}

function withKind(plan: ColumnPlan, kinds: ReadonlyMap<string, ColumnKind>): ColumnPlan {
  const kind = plan.isField ? undefined : kinds.get(plan.spec?.name ?? "");
  return kind === undefined ? plan : { ...plan, spec: { ...plan.spec!, kind } };
}
