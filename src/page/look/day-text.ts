const millisecondsInDay = 86_400_000;

/** A day since 1970-01-01 as text: 2025-03-31. */
export function textOfDay(day: number): string {
  return new Date(day * millisecondsInDay).toISOString().slice(0, 10);
}

/** The day that a text such as 2025-03-31 names, or undefined where it names none. */
export function dayOfText(text: string): number | undefined {
  const match = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text);
  if (match === null) return undefined;
  const day =
    Date.UTC(Number(match[1]), Number(match[2]) - 1, Number(match[3])) / millisecondsInDay;
  return textOfDay(day) === text ? day : undefined;
}
