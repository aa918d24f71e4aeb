/** Of more different values than these, so many from all over the column tell as much. */
const enough = 20_000;

/** The different values of a column, or as many of them as tell what it holds. */
export function enoughValues(written: readonly string[]): readonly string[] {
  const different = new Set(written);
  const step = Math.ceil(different.size / enough);
  if (step < 2) return [...different];
  const values: string[] = [];
  let place = 0;
  for (const value of different) if (place++ % step === 0) values.push(value);
  return values;
}
