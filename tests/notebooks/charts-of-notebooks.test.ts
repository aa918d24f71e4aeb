import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Chart } from "../../src/charts/chart.ts";
import { layChart } from "../../src/charts/chart-request.ts";
import type { Answered } from "../../src/questions/answer.ts";
import { openShipped, type Session, shippedNotebooks } from "./shipped-notebooks.ts";

/*
 * Every chart of every notebook that comes with the product: told in words made from its numbers,
 * and read without its colours.
 */

interface DrawnLayer {
  readonly mark?: {
    readonly type: string;
    readonly style?: readonly string[];
    readonly shape?: string;
    readonly filled?: boolean;
  };
  readonly data?: { readonly values: readonly unknown[] };
  readonly layer?: readonly DrawnLayer[];
}

interface Look {
  readonly type: string;
  readonly hue: string;
  /** What tells it apart where no colour does: the pattern of a line, the shape of a point. */
  readonly pattern: string;
}

function layersOf(spec: DrawnLayer): readonly DrawnLayer[] {
  return spec.layer === undefined ? [spec] : spec.layer.flatMap(layersOf);
}

/** Marks in the colour of a group, but for words, which read in any colour. */
function looksOf({ spec }: Chart): readonly Look[] {
  return layersOf(spec as DrawnLayer).flatMap(({ mark, data }): Look[] => {
    const hue = mark?.style?.find((style) => style.startsWith("hue-"));
    if (mark === undefined || hue === undefined || data?.values.length === 0) return [];
    if (mark.type === "text") return [];
    const shape = mark.shape && `${mark.filled ? "filled" : "hollow"} ${mark.shape}`;
    const pattern = mark.style?.find((style) => style.startsWith("dash-")) ?? shape ?? "";
    return [{ type: mark.type, hue, pattern }];
  });
}

describe.each(shippedNotebooks)("$name", (shipped) => {
  let session: Session;
  let charts: readonly (readonly [string, Chart])[] = [];

  beforeAll(async () => {
    session = await openShipped(shipped);
    charts = session.sheet.names().flatMap((name): [string, Chart][] => {
      const state = session.sheet.state(name);
      if (state.status !== "current" || state.value.kind !== "thing") return [];
      const { answer } = state.value.content as Partial<Answered>;
      return answer?.chart ? [[name, layChart(answer.chart, { width: 780 })]] : [];
    });
  });
  afterAll(() => session.dispose());

  it("draws charts, each told in words with its numbers", () => {
    expect(charts.length).toBeGreaterThan(0);
    for (const [name, { description, data }] of charts) {
      expect(description, name).toMatch(/\w{2,} .*\d/);
      expect(description, name).not.toMatch(/NaN|undefined|null|Infinity/);
      expect(data.length, name).toBeGreaterThan(0);
    }
  });

  it("tells groups apart without colour: by the pattern of their lines, the shape of their points or at the foot of their bars", () => {
    for (const [name, chart] of charts) {
      const patterns = new Map<string, string>();
      for (const { type, hue, pattern } of looksOf(chart)) {
        patterns.set(hue, `${patterns.get(hue) ?? ""} ${type} ${pattern}`);
      }
      expect(new Set(patterns.values()).size, `${name}: ${[...patterns]}`).toBe(patterns.size);
    }
  });
});
