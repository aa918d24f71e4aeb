/**
 * One stratum of Gray's test, walked through its times: the running estimates of each group, the
 * score, and the parts of its variance (Gray 1988, section 4). See `gray-test.ts`.
 *
 * With F the pooled incidence, dF = d / sum(Y / S), weights a(i,k) = w Y_i / S_i (1[i = k] - share of
 * k in sum(Y / S)), and c(i,k) the integral of a over dF / (1 - F), the score of group i is, to first
 * order, the integral over the counting processes of each group k of
 *   cause of interest  S / Y [a + (c(end) - c) (1 - (1 - F) / S)],  variance of a step  S dF / Y
 *   other causes       S / Y [-(c(end) - c) (1 - F) / S],           variance of a step  (S / Y)^2 d.
 * As c(end) is known last, squares are kept in three parts: `direct` without it, `carried` times it
 * once, `spread` times it twice.
 */
export class GrayStratum {
  readonly score: Float64Array;
  private readonly groups: number;
  private readonly rho: number;
  private readonly atRisk: Float64Array;
  private readonly survival: Float64Array;
  private readonly incidence: Float64Array;
  private readonly weights: Float64Array;
  private readonly running: Float64Array;
  private readonly direct: Float64Array;
  private readonly carried: Float64Array;
  private readonly spread: Float64Array;
  private pooled = 0;

  /** A stratum with so many rows of each group. */
  constructor(sizes: Float64Array, rho: number) {
    this.groups = sizes.length;
    this.rho = rho;
    const square = () => new Float64Array(this.groups * this.groups);
    const column = () => new Float64Array(this.groups);
    this.atRisk = Float64Array.from(sizes);
    this.survival = column().fill(1);
    [this.incidence, this.spread, this.score] = [column(), column(), column()];
    [this.weights, this.running, this.direct, this.carried] = [
      square(),
      square(),
      square(),
      square(),
    ];
  }

  /** One time: for each group its censored, events of the cause, and events of others. */
  step(counts: Float64Array): void {
    let events = 0;
    let others = 0;
    for (let g = 0; g < this.groups; g++) {
      events += counts[3 * g + 1]!;
      others += counts[3 * g + 2]!;
    }
    if (events + others > 0) this.take(counts, events);
    for (let g = 0; g < this.groups; g++) {
      const leaving = counts[3 * g]! + counts[3 * g + 1]! + counts[3 * g + 2]!;
      this.atRisk[g] = this.atRisk[g]! - leaving;
    }
  }

  /** The covariance of the score, row by row. */
  variance(): Float64Array {
    const { groups, running, carried, spread } = this;
    return this.direct.map((value, cell) => {
      const i = Math.floor(cell / groups);
      const j = cell % groups;
      let sum = value;
      for (let k = 0; k < groups; k++) {
        const [ci, cj] = [running[i * groups + k]!, running[j * groups + k]!];
        sum += ci * cj * spread[k]! + ci * carried[j * groups + k]! + cj * carried[i * groups + k]!;
      }
      return sum;
    });
  }

  private take(counts: Float64Array, events: number): void {
    const { pooled } = this;
    let risk = 0;
    let total = 0;
    for (const g of this.present()) {
      total += this.atRisk[g]! / this.survival[g]!;
      risk += this.riskOf(g);
    }
    const after = pooled + events / total;
    this.weigh(total, events / (total * (1 - pooled)));
    if (events > 0) this.addScore(counts, events, risk);
    for (const k of this.present()) {
      const own = counts[3 * k + 1]!;
      const other = counts[3 * k + 2]!;
      const before = this.survival[k]!;
      const n = this.atRisk[k]!;
      const survival = before * ((n - own - other) / n);
      if (events > 0) this.addOwn({ k, after, survival, events, total });
      if (other > 0 && survival > 0) this.addOther(k, (1 - after) / survival, other);
      this.survival[k] = survival;
      this.incidence[k] = this.incidence[k]! + (before * own) / n;
    }
    this.pooled = after;
  }

  private present(): number[] {
    const all = Array.from({ length: this.groups }, (_, g) => g);
    return all.filter((g) => this.atRisk[g]! > 0 && this.survival[g]! > 0);
  }

  private riskOf(g: number): number {
    return (this.atRisk[g]! * (1 - this.incidence[g]!)) / this.survival[g]!;
  }

  /** The weights of this time, and their running sums with the pooled hazard of the incidence. */
  private weigh(total: number, hazard: number): void {
    const factor = (1 - this.pooled) ** this.rho;
    this.weights.fill(0);
    const present = this.present();
    for (const i of present) {
      const share = this.atRisk[i]! / this.survival[i]!;
      for (const k of present) {
        const other = this.atRisk[k]! / this.survival[k]!;
        const cell = i * this.groups + k;
        this.weights[cell] = factor * share * ((i === k ? 1 : 0) - other / total);
        this.running[cell] = this.running[cell]! + this.weights[cell]! * hazard;
      }
    }
  }

  private addScore(counts: Float64Array, events: number, risk: number): void {
    const factor = (1 - this.pooled) ** this.rho;
    for (const g of this.present()) {
      const expected = (events * this.riskOf(g)) / risk;
      this.score[g] = this.score[g]! + factor * (counts[3 * g + 1]! - expected);
    }
  }

  private addOwn(at: {
    k: number;
    after: number;
    survival: number;
    events: number;
    total: number;
  }): void {
    const { k, after, survival, events, total } = at;
    const before = this.survival[k]!;
    const carry = survival > 0 ? 1 - (1 - after) / survival : 1;
    const ties = events > 1 ? 1 - (events - 1) / (total * before - 1) : 1;
    const variance = (ties * before * events) / (total * this.atRisk[k]!);
    this.addProcess(k, { carry, variance, hasWeight: true });
  }

  private addOther(k: number, carry: number, events: number): void {
    const n = this.atRisk[k]!;
    const ties = events > 1 ? 1 - (events - 1) / (n - 1) : 1;
    const variance = ties * (this.survival[k]! / n) ** 2 * events;
    this.addProcess(k, { carry: -carry, variance, hasWeight: false });
  }

  /** Adds one counting process of group k with its variance to the three parts. */
  private addProcess(
    k: number,
    { carry, variance, hasWeight }: { carry: number; variance: number; hasWeight: boolean },
  ): void {
    const { groups } = this;
    const loading = (i: number) => {
      const cell = i * groups + k;
      return (hasWeight ? this.weights[cell]! : 0) - carry * this.running[cell]!;
    };
    this.spread[k] = this.spread[k]! + carry * carry * variance;
    for (let i = 0; i < groups; i++) {
      const one = loading(i);
      const cell = i * groups + k;
      this.carried[cell] = this.carried[cell]! + one * carry * variance;
      for (let j = 0; j < groups; j++) {
        const pair = i * groups + j;
        this.direct[pair] = this.direct[pair]! + one * loading(j) * variance;
      }
    }
  }
}
