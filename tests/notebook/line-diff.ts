import type { Edit } from "../../src/notebook/edit.ts";
import { writeNotebook } from "../../src/notebook/write-notebook.ts";

/** The text that an edit made, or the messages of its refusal. */
export function textOf(edit: Edit): string {
  return edit.ok ? writeNotebook(edit.notebook) : edit.problems.map((p) => p.message).join("\n");
}

/** Lines taken out (`-`) and put in (`+`), by a longest common subsequence; endings count. */
export function lineDiff(before: string, after: string): string[] {
  const from = before.split(/(?<=\n)/);
  const to = after.split(/(?<=\n)/);
  const common = lengths(from, to);
  const changes: string[] = [];
  let i = 0;
  let j = 0;
  while (i < from.length || j < to.length) {
    if (i < from.length && j < to.length && from[i] === to[j]) {
      i += 1;
      j += 1;
    } else if (j >= to.length || (i < from.length && common[i + 1]![j]! >= common[i]![j + 1]!)) {
      changes.push(`-${from[i++]}`);
    } else {
      changes.push(`+${to[j++]}`);
    }
  }
  return changes.map((change) => change.replace(/\n$/, ""));
}

function lengths(from: readonly string[], to: readonly string[]): number[][] {
  const table = from.map(() => new Array<number>(to.length + 1).fill(0));
  table.push(new Array<number>(to.length + 1).fill(0));
  for (let i = from.length - 1; i >= 0; i--) {
    for (let j = to.length - 1; j >= 0; j--) {
      table[i]![j] =
        from[i] === to[j]
          ? table[i + 1]![j + 1]! + 1
          : Math.max(table[i + 1]![j]!, table[i]![j + 1]!);
    }
  }
  return table;
}
