/**
 * Fisher's exact test of a table of any size, given its margins (Freeman and Halton 1951).
 *
 * p is the total probability of all tables with these margins that are no more probable than the
 * observed one. Tables are walked line by line; what remains of the other margins is a node, and
 * nodes that differ only in order are one. From each node the most and the least probable
 * completion are known, so that a bundle of tables is counted or dropped whole as soon as all of it
 * lies on one side of the observed probability (the network algorithm, Mehta and Patel 1983).
 */
import { margins } from "./chi-square-test.ts";
import { logFactorial } from "./log-gamma.ts";

/** Relative margin within which two probabilities are equal. */
const SAME = 1e-7;
const MOST_STEPS = 3e6;

/**
 * The p-value; 1 when a margin leaves only one table. Null when the table is too large to be
 * walked: use the chi-square test, which is accurate then.
 */
export function fisherExactTable(table: readonly (readonly number[])[]): number | null {
  const { rows, columns, total } = margins(table);
  const positive = (sums: readonly number[]) => sums.filter((sum) => sum > 0);
  const [short, long] = [positive(rows), positive(columns)].sort((a, b) => a.length - b.length);
  const cells = table.flat().reduce((sum, count) => sum - logFactorial(count), 0);
  const constant = sumLogFactorials(short!) + sumLogFactorials(long!) - logFactorial(total);
  const lines = long!.sort((a, b) => b - a);
  const network = new Network(lines);
  const limit = cells + Math.log1p(SAME);
  const logSum = network.sumAtMost(sorted(short!), limit);
  return logSum === null ? null : Math.min(1, Math.exp(logSum + constant));
}

interface Ends {
  readonly most: number;
  readonly least: number;
}

/** The walk over lines, with the extreme completions of each node remembered. */
class Network {
  private readonly lines: readonly number[];
  private readonly ends: Map<string, Ends>[];
  private steps = 0;

  constructor(lines: readonly number[]) {
    this.lines = lines;
    this.ends = lines.map(() => new Map());
  }

  /** ln of the summed exp(path) over tables whose path is at most `limit`; null: too many. */
  sumAtMost(start: readonly number[], limit: number): number | null {
    let stage: Map<string, Bundle> = new Map([[key(start), bundleOf(start)]]);
    let sum = 0;
    for (let line = 0; line <= this.lines.length; line++) {
      const next = new Map<string, Bundle>();
      for (const { node, paths } of stage.values()) {
        const ends = this.endsOf(node, line);
        const rest = this.logAllCompletions(node, line);
        for (const { past, count } of paths.values()) {
          if (past + ends.least > limit) continue;
          if (past + ends.most <= limit) sum += count * Math.exp(past + rest - limit);
          else this.extend(next, { node, line, past, count });
        }
        if (this.steps > MOST_STEPS) return null;
      }
      stage = next;
    }
    return Math.log(sum) + limit;
  }

  private extend(
    next: Map<string, Bundle>,
    from: { node: readonly number[]; line: number; past: number; count: number },
  ): void {
    for (const { rest, length } of this.branches(from.node, from.line)) {
      const name = key(rest);
      const bundle = next.get(name) ?? bundleOf(rest, false);
      next.set(name, bundle);
      addPath(bundle, from.past + length, from.count);
    }
  }

  private endsOf(node: readonly number[], line: number): Ends {
    if (line === this.lines.length) return { most: 0, least: 0 };
    const name = key(node);
    const known = this.ends[line]!.get(name);
    if (known !== undefined) return known;
    let most = -Infinity;
    let least = Infinity;
    for (const { rest, length } of this.branches(node, line)) {
      const ends = this.endsOf(rest, line + 1);
      most = Math.max(most, length + ends.most);
      least = Math.min(least, length + ends.least);
    }
    this.ends[line]!.set(name, { most, least });
    return { most, least };
  }

  /** ln of the sum over all completions of a node of the product of 1 / x!. */
  private logAllCompletions(node: readonly number[], line: number): number {
    const remaining = node.reduce((a, b) => a + b, 0);
    const lines = this.lines.slice(line);
    return logFactorial(remaining) - sumLogFactorials(node) - sumLogFactorials(lines);
  }

  /** Every way to fill a line from a node: what is left of it, sorted, and the step's length. */
  private branches(node: readonly number[], line: number): { rest: number[]; length: number }[] {
    const found: { rest: number[]; length: number }[] = [];
    const chosen: number[] = [];
    const fill = (cell: number, left: number, length: number, spare: number): void => {
      if (++this.steps > MOST_STEPS) return;
      if (cell === node.length) {
        found.push({ rest: sorted(node.map((margin, i) => margin - chosen[i]!)), length });
        return;
      }
      const after = spare - node[cell]!;
      for (let x = Math.max(0, left - after); x <= Math.min(left, node[cell]!); x++) {
        chosen[cell] = x;
        fill(cell + 1, left - x, length - logFactorial(x), after);
      }
    };
    fill(
      0,
      this.lines[line]!,
      0,
      node.reduce((a, b) => a + b, 0),
    );
    return found;
  }
}

/** The paths that reach a node, those of equal length (to 1e-9) counted together. */
interface Bundle {
  readonly node: readonly number[];
  readonly paths: Map<number, { readonly past: number; readonly count: number }>;
}

function bundleOf(node: readonly number[], isStart = true): Bundle {
  const bundle: Bundle = { node, paths: new Map() };
  if (isStart) addPath(bundle, 0, 1);
  return bundle;
}

function addPath(bundle: Bundle, past: number, count: number): void {
  const rounded = Math.round(past * 1e9);
  const known = bundle.paths.get(rounded);
  bundle.paths.set(rounded, { past: known?.past ?? past, count: count + (known?.count ?? 0) });
}

function key(node: readonly number[]): string {
  return node.join(" ");
}

function sorted(node: readonly number[]): number[] {
  return [...node].sort((a, b) => a - b);
}

function sumLogFactorials(counts: readonly number[]): number {
  return counts.reduce((sum, count) => sum + logFactorial(count), 0);
}
