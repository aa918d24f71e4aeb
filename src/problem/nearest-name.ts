/**
 * The name in `names` that a reader most likely meant by `written`, or undefined where none is
 * near. Nearness is the optimal string alignment distance (insert, delete, replace, swap two
 * neighbours), at most a third of the written length, and at least one edit is always allowed.
 * Ties go to the first in `names`. Case is ignored.
 */
export function nearestName(written: string, names: Iterable<string>): string | undefined {
  const allowed = Math.max(1, Math.floor(written.length / 3));
  let best: string | undefined;
  let bestDistance = allowed + 1;
  const from = written.toLowerCase();
  for (const name of names) {
    if (Math.abs(name.length - written.length) >= bestDistance) continue;
    const distance = editDistance(from, name.toLowerCase());
    if (distance < bestDistance) {
      best = name;
      bestDistance = distance;
    }
  }
  return best;
}

function editDistance(from: string, to: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: to.length + 1 }, (_, j) => j);
  for (let i = 1; i <= from.length; i++) {
    const row = [i];
    for (let j = 1; j <= to.length; j++) {
      const same = from[i - 1] === to[j - 1];
      const replaced = last[j - 1]! + (same ? 0 : 1);
      let least = Math.min(replaced, last[j]! + 1, row[j - 1]! + 1);
      if (i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1]) {
        least = Math.min(least, beforeLast[j - 2]! + 1);
      }
      row.push(least);
    }
    beforeLast = last;
    last = row;
  }
  return last[to.length]!;
}
