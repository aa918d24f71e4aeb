import { appendFileSync, copyFileSync, mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test, vi } from "vitest";
import { run } from "../../src/command/run.ts";

describe("--watch", () => {
  test("makes the report again when the notebook changes, and ends when it is told to", async () => {
    const folder = mkdtempSync(join(tmpdir(), "holdfast-"));
    const notebook = join(folder, "notebook.md");
    copyFileSync("tests/report/pipeline.notebook", notebook);
    const into = join(folder, "out");
    const results = () => readFileSync(join(into, "results.json"), "utf8");
    let stop = (): void => {};
    let warned = "";
    const ended = run(
      ["report", notebook, "data-demo/repairs.csv", "--into", into, "--watch", "--quiet"],
      {
        say: () => {},
        warn: (text) => {
          warned += text;
        },
        isTerminal: false,
        today: 20_543,
        whenStopped: () => new Promise((resolve) => (stop = resolve)),
      },
    );
    await vi.waitFor(() => expect(warned).toContain("Ctrl-C ends it"), 10_000);
    expect(results()).not.toContain('"added"');
    appendFileSync(notebook, "\n    added = failure_rate(eyes)\n");
    await vi.waitFor(() => expect(results()).toContain('"added"'), 10_000);
    stop();
    expect(await ended).toBe(0);
  }, 30_000);
});
