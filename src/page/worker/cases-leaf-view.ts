import type { CaseReading, FileJoin } from "../../cases/case-reading.ts";
import type { Correction } from "../../cases/corrections/correction.ts";
import { describeRow } from "../../cases/corrections/corrections-laid.ts";
import { fieldNamed } from "../../cases/dictionary.ts";
import { columnNamed } from "../../cases/table.ts";
import { codeFinder } from "../../cases/values/read-codes.ts";
import { dayText } from "../../formula/calendar.ts";
import type { Computed } from "../../notebook/computed.ts";
import type { LaidOver } from "../../recalculation/laid-over.ts";
import type {
  CasesLeafView,
  CorrectionView,
  EarlierView,
  JoinView,
  UnmetValue,
} from "../cases-protocol.ts";
import { placesIn } from "./case-places.ts";
import { valueText } from "./value-text.ts";

/** Changes and missing rows that are named one by one. */
const mostNamed = 200;
/** Unmet values asked about at once. */
const mostUnmet = 200;

export interface LeafParts {
  readonly laid: LaidOver;
  readonly computed: Computed;
  readonly earlier: EarlierView | undefined;
}

/** What the leaf of cases shows beyond the facts of the file. */
export function casesLeafView(
  reading: CaseReading,
  { laid, computed, earlier }: LeafParts,
  saved: ReadonlySet<Correction>,
): CasesLeafView {
  const { joins = [] } = reading;
  const headings = new Set(reading.columns.map(({ heading }) => heading));
  return {
    columns: reading.cases.columns.map(({ name, label, kind, unit }) => ({
      name,
      label,
      kind,
      ...(unit !== undefined && { unit }),
    })),
    corrections: laid.corrections.map((correction) => correctionView(reading, correction)),
    unsavedCorrections: laid.corrections.filter((correction) => !saved.has(correction)).length,
    ...(earlier && { earlier }),
    joins: joins.map((join) => joinView(reading, join)),
    furtherColumns: joins
      .flatMap(({ columns }) => columns)
      .filter(({ heading }) => !headings.has(heading)),
    unmetValues: unmetValues(reading),
    computed: [...computed].map(([name, working]) => {
      return { name, working, isThere: reading.cases.positions.has(name) };
    }),
    hasKey: laid.codeOf !== undefined,
  };
}

function correctionView(reading: CaseReading, correction: Correction): CorrectionView {
  const { row, field, from, to, why, correctedDay } = correction;
  const places = placesIn(reading);
  const position = places.rowCalled(row);
  return {
    row: describeRow(row),
    ...{ field, from, to, why },
    date: dayText(correctedDay),
    fits: !(reading.corrections?.notFitting.includes(correction) ?? false),
    ...(position !== undefined && { at: places.atOf(position) }),
  };
}

function joinView(reading: CaseReading, join: FileJoin): JoinView {
  const { name } = join.file;
  return {
    file: name,
    as: join.as,
    rowsRead: join.rowsRead,
    added: join.added.length,
    same: join.same.length,
    changed: {
      count: join.changed.length,
      first: join.changed.slice(0, mostNamed).map(({ place, field, from, to }) => {
        const kind = columnNamed(reading.cases, field)?.kind ?? "text";
        const [before, after] = [valueText({ kind }, from), valueText({ kind }, to)];
        return { ...place, field, from: before, to: after };
      }),
    },
    missing: { count: join.missing.length, first: join.missing.slice(0, mostNamed) },
    leftOut: reading.leftOut.filter(({ file }) => file === name).length,
  };
}

/** Values of columns of codes that stand for no code yet, each once, most frequent first. */
function unmetValues({ problems, matching }: CaseReading): readonly UnmetValue[] {
  const unmet = new Map<
    string,
    { readonly field: string; readonly written: string; rows: number }
  >();
  for (const { code, place, found } of problems) {
    const field = fieldNamed(place.field ?? "");
    if (code !== "code-unknown" || field?.codes === undefined || found === undefined) continue;
    const codes = matching.values.get(field.name);
    const find = codeFinder(field.codes, codes === undefined ? {} : { codes });
    const parts = field.kind === "codes" ? found.split(";").map((part) => part.trim()) : [found];
    for (const written of parts.filter((part) => part !== "" && find(part) === undefined)) {
      const key = `${field.name} ${written}`;
      const known = unmet.get(key) ?? { field: field.name, written, rows: 0 };
      known.rows++;
      unmet.set(key, known);
    }
  }
  return [...unmet.values()]
    .sort((one, other) => other.rows - one.rows)
    .slice(0, mostUnmet)
    .map((value) => ({
      ...value,
      codes: (fieldNamed(value.field)?.codes ?? []).map(({ code }) => code),
    }));
}
