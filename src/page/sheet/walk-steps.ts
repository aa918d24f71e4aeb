/** Where the keyboard stands on a chart: on which walk, at which of its points. */
export interface Standing {
  readonly walk: number;
  readonly point: number;
}

/**
 * Where a key leads on walks of such lengths, or undefined where it is none of theirs. Left and
 * right go along, up and down to another walk at the same share of its length, Home and End to
 * its ends. The first key stands on the first point.
 */
export function stepOnWalk(
  lengths: readonly number[],
  from: Standing | undefined,
  key: string,
): Standing | undefined {
  const known = ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Home", "End"].includes(key);
  if (!known || lengths.length === 0) return undefined;
  const { walk, point } = from ?? { walk: 0, point: key === "ArrowRight" ? -1 : 0 };
  const last = (lengths[walk] ?? 1) - 1;
  switch (key) {
    case "ArrowLeft":
      return { walk, point: Math.max(0, point - 1) };
    case "ArrowRight":
      return { walk, point: Math.min(last, point + 1) };
    case "Home":
      return { walk, point: 0 };
    case "End":
      return { walk, point: last };
    default:
      return from === undefined ? { walk: 0, point: 0 } : across(lengths, from, key);
  }
}

function across(lengths: readonly number[], { walk, point }: Standing, key: string): Standing {
  const to = (walk + (key === "ArrowDown" ? 1 : -1) + lengths.length) % lengths.length;
  const last = (lengths[walk] ?? 1) - 1;
  const share = last === 0 ? 0 : point / last;
  return { walk: to, point: Math.round(share * ((lengths[to] ?? 1) - 1)) };
}
