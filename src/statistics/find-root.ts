/**
 * The root of a continuous function in one variable: Brent's method (Brent 1973, "Algorithms for
 * Minimization without Derivatives", chapter 4): inverse quadratic interpolation or the secant
 * where they shorten the bracket, bisection otherwise, so that it always converges.
 */
export interface Bracket {
  readonly from: number;
  readonly to: number;
  /** Half-width of the final bracket, absolute; the default is limited by double precision. */
  readonly tolerance?: number;
}

/**
 * A root of `f` between `from` and `to`, where `f` must have opposite signs (or be 0).
 * Throws a RangeError when the ends have the same sign: there is then no certain root.
 */
export function findRoot(f: (x: number) => number, bracket: Bracket): number {
  let state = startBracket(f, bracket);
  const tolerance = bracket.tolerance ?? 0;
  for (let step = 0; step < 400; step++) {
    const precision = 2 * Number.EPSILON * Math.abs(state.best) + tolerance / 2;
    const half = (state.other - state.best) / 2;
    if (Math.abs(half) <= precision || state.fBest === 0) return state.best;
    state = advance(f, state, precision);
  }
  return state.best;
}

/** `best` and `other` bracket the root, `previous` is the point before `best`. */
interface BrentState {
  readonly best: number;
  readonly fBest: number;
  readonly other: number;
  readonly fOther: number;
  readonly previous: number;
  readonly fPrevious: number;
  readonly move: number;
  readonly moveBefore: number;
}

function startBracket(f: (x: number) => number, { from, to }: Bracket): BrentState {
  const fFrom = f(from);
  const fTo = f(to);
  if (fFrom * fTo > 0 || Number.isNaN(fFrom * fTo)) {
    throw new RangeError(
      `the function is ${fFrom} at ${from} and ${fTo} at ${to}; expected opposite signs`,
    );
  }
  const move = to - from;
  const best = { best: to, fBest: fTo, other: from, fOther: fFrom };
  return ordered({ ...best, previous: from, fPrevious: fFrom, move, moveBefore: move });
}

function advance(f: (x: number) => number, state: BrentState, precision: number): BrentState {
  const half = (state.other - state.best) / 2;
  const tried = interpolate(state);
  const short = Math.min(3 * Math.abs(half), Math.abs(state.moveBefore));
  const isUseful = Number.isFinite(tried) && tried * half > 0 && 2 * Math.abs(tried) < short;
  const move = isUseful ? tried : half;
  const moveBefore = isUseful ? state.move : half;
  const step = Math.abs(move) > precision ? move : Math.sign(half) * precision;
  const best = state.best + step;
  const fBest = f(best);
  const isSameSide = fBest > 0 === state.fOther > 0 && fBest !== 0;
  return ordered({
    best,
    fBest,
    other: isSameSide ? state.best : state.other,
    fOther: isSameSide ? state.fBest : state.fOther,
    previous: state.best,
    fPrevious: state.fBest,
    move: isSameSide ? step : move,
    moveBefore: isSameSide ? step : moveBefore,
  });
}

/** The step proposed by inverse quadratic interpolation, or by the secant with two points. */
function interpolate(state: BrentState): number {
  const { best, fBest, other, fOther, previous, fPrevious } = state;
  const s = fBest / fPrevious;
  if (previous === other) {
    return ((other - best) * s) / (s - 1);
  }
  const q = fPrevious / fOther;
  const r = fBest / fOther;
  const p = s * ((other - best) * q * (q - r) - (best - previous) * (r - 1));
  return p / -((q - 1) * (r - 1) * (s - 1));
}

/** Swaps the ends so that `best` has the smaller absolute value. */
function ordered(state: BrentState): BrentState {
  if (Math.abs(state.fOther) >= Math.abs(state.fBest)) return state;
  return {
    ...state,
    best: state.other,
    fBest: state.fOther,
    other: state.best,
    fOther: state.fBest,
    previous: state.best,
    fPrevious: state.fBest,
  };
}
