/** Of more different values than these, so many from all over the column tell as much. */
const enough = 20_000;

/** The different values of a column, or as many of them as tell what it holds. */
export function enoughValues(different: readonly string[]): readonly string[] {
  const step = Math.ceil(different.length / enough);
  return step < 2 ? different : different.filter((_, place) => place % step === 0);
}
