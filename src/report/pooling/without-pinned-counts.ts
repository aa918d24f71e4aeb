import {
  type AggregatesFile,
  type Quantity,
  quantities,
} from "../../aggregates/aggregates-file.ts";
import { countBounds, keyOfGroup } from "../../aggregates/count-bounds.ts";
import type { ReleasedGroup } from "./released-counts.ts";
import type { SmallCounts } from "./small-counts.ts";

/** The file that would be written of groups. */
type Written = (released: readonly ReleasedGroup[]) => AggregatesFile;

interface Pin {
  readonly at: number;
  readonly name: Quantity;
}

/**
 * The groups with so much more withheld that no small count is left a single value by the bounds
 * that everything else in the file sets to it (`countBounds`). Of the group it stands in the least
 * count that is told goes, else the same count of the smallest other group, else that of all eyes.
 */
export function withoutPinnedCounts(
  released: readonly ReleasedGroup[],
  written: Written,
  small: SmallCounts,
): readonly ReleasedGroup[] {
  let now = released;
  for (;;) {
    const pin = pinnedCounts(now, written, small)[0];
    const goes = pin && whatGoes(now, pin);
    if (goes === undefined) return now;
    now = now.map((group, at) => (at === goes.at ? without(group, goes.name) : group));
  }
}

/** Small withheld counts that can have one value only. */
export function pinnedCounts(
  released: readonly ReleasedGroup[],
  written: Written,
  { isShowable }: SmallCounts,
): Pin[] {
  const file = written(released);
  const bounds = countBounds(file);
  return released.flatMap(({ group, open }, at) => {
    const of = bounds.get(keyOfGroup(group));
    const isPinned = (name: Quantity) =>
      !open.has(name) &&
      !isShowable(group[name]) &&
      of !== undefined &&
      of[name].least === of[name].most;
    return quantities.filter(isPinned).map((name) => ({ at, name }));
  });
}

function whatGoes(released: readonly ReleasedGroup[], { at, name }: Pin): Pin | undefined {
  const own = released[at];
  const columns = columnsOf(own);
  const row = quantities.map((each) => ({ at, name: each }));
  const column = released.flatMap((each, other) =>
    other !== at && columnsOf(each) === columns ? [{ at: other, name }] : [],
  );
  const size = (pin: Pin) => released[pin.at]?.group[pin.name].length ?? 0;
  const isTold = (pin: Pin) => released[pin.at]?.open.has(pin.name) === true && size(pin) > 0;
  const least = (pins: readonly Pin[]) =>
    pins.filter(isTold).sort((one, other) => size(one) - size(other))[0];
  return least(row) ?? least(column) ?? least([{ at: 0, name }]);
}

function columnsOf(released: ReleasedGroup | undefined): string {
  return JSON.stringify(released?.group.by.map(({ column }) => column));
}

/** Tables that add up to a count that is withheld go with it. */
function without(released: ReleasedGroup, name: Quantity): ReleasedGroup {
  const open = new Set([...released.open].filter((each) => each !== name));
  const isTimed = open.has("eyes") && open.has("failed");
  return {
    ...released,
    open,
    table: isTimed ? released.table : undefined,
    areCausesOpen: released.areCausesOpen && isTimed,
    arePairsOpen: released.arePairsOpen && open.has("failed") && open.has("held"),
  };
}
