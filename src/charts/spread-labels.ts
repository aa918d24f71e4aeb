/** Labels to be set one above the other near where they belong. Pixels, downwards. */
export interface LabelPlace {
  /** Centre wanted. */
  readonly wanted: number;
  readonly height: number;
}

export interface Span {
  readonly top: number;
  readonly bottom: number;
}

interface Cluster {
  readonly members: readonly number[];
  readonly height: number;
  /** Sum over members of the top wanted for the whole cluster. */
  readonly wantedSum: number;
}

/**
 * Centres for labels so that none overlap, all stay in the span and the sum of squared shifts is
 * the least for their order (pooling of adjacent violators, as in isotonic regression: Ayer et al., Ann Math Stat
 * 1955;26:641). Order from top to bottom is that of the centres wanted; ties keep their order.
 * Labels that together are higher than the span run on below it.
 */
export function spreadLabels(places: readonly LabelPlace[], span: Span): readonly number[] {
  const order = places.map((_, i) => i).sort((a, b) => places[a]!.wanted - places[b]!.wanted);
  const clusters: Cluster[] = [];
  for (const index of order) {
    let cluster = single(index, places[index]!);
    for (let above = clusters.at(-1); above !== undefined; above = clusters.at(-1)) {
      if (topOf(above, span) + above.height <= topOf(cluster, span)) break;
      clusters.pop();
      cluster = join(above, cluster);
    }
    clusters.push(cluster);
  }
  return centres(clusters, places, span);
}

function single(index: number, { wanted, height }: LabelPlace): Cluster {
  return { members: [index], height, wantedSum: wanted - height / 2 };
}

function join(above: Cluster, below: Cluster): Cluster {
  return {
    members: [...above.members, ...below.members],
    height: above.height + below.height,
    wantedSum: above.wantedSum + below.wantedSum - above.height * below.members.length,
  };
}

function topOf(cluster: Cluster, { top, bottom }: Span): number {
  const wanted = cluster.wantedSum / cluster.members.length;
  return Math.max(top, Math.min(wanted, bottom - cluster.height));
}

function centres(
  clusters: readonly Cluster[],
  places: readonly LabelPlace[],
  span: Span,
): readonly number[] {
  const result = new Array<number>(places.length).fill(0);
  for (const cluster of clusters) {
    let y = topOf(cluster, span);
    for (const member of cluster.members) {
      const { height } = places[member]!;
      result[member] = y + height / 2;
      y += height;
    }
  }
  return result;
}
