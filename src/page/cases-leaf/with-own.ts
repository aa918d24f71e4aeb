/** What is in sight with the row or column that has focus, wherever it is; below 0: none has. */
export function withOwn(inSight: number[], own: number): number[] {
  if (own < 0 || inSight.includes(own)) return inSight;
  return own < (inSight[0] ?? 0) ? [own, ...inSight] : [...inSight, own];
}
