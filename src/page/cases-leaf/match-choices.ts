import { html, type TemplateResult } from "lit";
import type { MatchedColumn } from "../../cases/case-reading.ts";
import { dictionary } from "../../cases/dictionary.ts";
import type { FieldGroup } from "../../cases/field.ts";
import type { ColumnMatch } from "../../cases/matching.ts";
import { ownColumnName } from "../../cases/own-column.ts";
import type { ColumnKind } from "../../cases/table.ts";
import { labels } from "../labels.ts";

const groups: readonly FieldGroup[] = [
  "who and when",
  "the eye before surgery",
  "the operation",
  "the outcome",
];

const ownKinds = Object.keys(labels.ownKinds) as readonly ColumnKind[];

/** Everything that a heading can stand for: a field, a column of one's own with its kind, nothing. */
export function matchChoices(column: MatchedColumn): TemplateResult {
  const now = column.field === undefined ? "" : `field ${column.field}`;
  return html`${groups.map(
    (group) =>
      html`<optgroup label=${group}>
        ${dictionary
          .filter((field) => field.group === group && field.madeFrom === undefined)
          .map(({ name, label }) => option(`field ${name}`, label, now))}
      </optgroup>`,
  )}
    <optgroup label=${labels.ownColumn}>
      ${ownKinds.map((kind) => option(`own ${kind}`, labels.ownKinds[kind], now))}
    </optgroup>
    ${option("leave", labels.leaveAside, column.by === "dropped" ? "leave" : now)}`;
}

function option(value: string, label: string, now: string): TemplateResult {
  return html`<option value=${value} ?selected=${value === now}>${label}</option>`;
}

/** What the reader chose for a heading, as the notebook keeps it. */
export function chosenMatch(value: string, { heading, field, name }: MatchedColumn): ColumnMatch {
  if (value === "leave") return { leave: true };
  const [sort, chosen = ""] = value.split(/ (.*)/);
  if (sort === "field") return { field: chosen };
  const isOwn = field === undefined && name !== undefined;
  return {
    name: isOwn ? name : ownColumnName(heading, new Set()),
    kind: chosen as ColumnKind,
  };
}
