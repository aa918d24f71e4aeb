import { isMissing } from "../missing-value.ts";
import type { WrittenColumn } from "../written-column.ts";
import { enoughValues } from "./enough-values.ts";

/**
 * Whether the values look like people's names: "Smith, John", "Mr J Smith", or nearly all
 * different pairs of capitalised words. To be asked only of columns that are nothing else.
 */
export function looksLikeNames(written: WrittenColumn): boolean {
  const known = enoughValues(written.different).filter((value) => !isMissing(value));
  const surely = known.filter(isSurelyName).length;
  if (surely > 0 && surely * 2 >= known.length) return true;
  const pairs = known.filter((value) =>
    /^\p{Lu}\p{Ll}+([ -]\p{Lu}\p{Ll}*){1,2}$/u.test(value),
  ).length;
  return known.length >= 5 && pairs >= 0.8 * known.length && areNearlyAllDifferent(written);
}

function areNearlyAllDifferent(written: WrittenColumn): boolean {
  const known = written.different.filter((value) => !isMissing(value));
  return known.length >= 0.8 * written.count((value) => !isMissing(value));
}

function isSurelyName(value: string): boolean {
  const isReversed = /^\p{Lu}[\p{L}'-]+, ?\p{Lu}[\p{L}'.-]*( \p{Lu}[\p{L}'.-]*)?$/u.test(value);
  return isReversed || /^(mr|mrs|ms|miss|dr|prof)\.? \p{L}/iu.test(value);
}
