import { describe, expect, it } from "vitest";
import { bootstrap } from "../../src/statistics/bootstrap.ts";
import { Interruption, inPieces, keptOver, mayPause } from "../../src/statistics/long-work.ts";

const sample = {
  rows: 30,
  statistic: (rows: Int32Array) => rows.reduce((sum, row) => sum + row * row, 0) / rows.length,
};
const run = () => bootstrap(sample, { seed: 7, replicates: 730 });

describe("long work in pieces", () => {
  it("gives what one go gives, however often it is interrupted", async () => {
    const whole = run();
    let pauses = 0;
    let attempts = 0;
    const often = () => {
      pauses++;
      return Promise.resolve();
    };
    const pieces = inPieces(() => {
      attempts++;
      return [run(), run()] as const;
    }, often);
    expect(pieces).toBeInstanceOf(Promise);
    expect(await pieces).toEqual([whole, whole]);
    // 730 replicates, twice, with a pause behind each fifty.
    expect(pauses).toBe(28);
    expect(attempts).toBe(29);
  });

  it("is done in one go where it need not pause, and outside of pieces", () => {
    expect(inPieces(run, () => undefined)).toEqual(run());
  });

  it("goes on only when what it waits for is over", async () => {
    let goOn = (): void => {};
    const held = new Promise<void>((go) => {
      goOn = go;
    });
    let pause: Promise<void> | undefined = held;
    let settled = false;
    const work = Promise.resolve(inPieces(run, () => pause)).then((result) => {
      settled = true;
      return result;
    });
    await new Promise((soon) => setTimeout(soon, 20));
    expect(settled).toBe(false);
    pause = undefined;
    goOn();
    expect(await work).toEqual(run());
  });

  it("lets every other error through, and keeps two works apart", async () => {
    expect(() =>
      inPieces(
        () => {
          throw new RangeError("no rows");
        },
        () => Promise.resolve(),
      ),
    ).toThrow(new RangeError("no rows"));
    const counted = (most: number) => () => {
      const state = keptOver(() => ({ count: 0 }));
      while (state.count < most) {
        state.count++;
        mayPause();
      }
      return state.count;
    };
    const soon = () => Promise.resolve();
    expect(await Promise.all([inPieces(counted(3), soon), inPieces(counted(5), soon)])).toEqual([
      3, 5,
    ]);
    expect(new Interruption(Promise.resolve()).message).toContain("interrupted");
  });
});
