import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import type { Request } from "../../src/page/protocol.ts";
import { SheetHost } from "../../src/page/worker/sheet-host.ts";
import { workbookOf } from "../cases/workbook-of.ts";

const notebook =
  "---\nholdfast: 1\n---\n\n    eyes = index_eyes(cases)\n    rate = failure_rate(eyes)\n";

/** Three invented eyes, one of which redetached. */
const rows = [
  ["case", "patient", "eye", "operation_date", "last_seen_date", "status_last_seen"],
  ["1", "a", "right", "2024-01-10", "2025-03-01", "attached"],
  ["2", "b", "left", "2024-02-01", "2025-04-01", "attached"],
  ["3", "c", "right", "2024-03-05", "2024-05-05", "detached"],
];
const csv = new TextEncoder().encode(`${rows.map((row) => row.join(",")).join("\n")}\n`);

async function opened(name: string, bytes: Uint8Array) {
  const host = new SheetHost(() => {}, 20_700);
  const ask = <R extends Request>(request: R) => host.answer(request);
  await ask({ ask: "open notebook", name: "small.md", text: notebook });
  await ask({ ask: "open cases", name, bytes });
  return ask;
}

const sha256 = (content: Uint8Array | string) => createHash("sha256").update(content).digest("hex");

describe("the report that the worker hands over", () => {
  it("names the file by its own digest, and a workbook by that of the workbook", async () => {
    const asCsv = await (await opened("three.csv", csv))({ ask: "report" });
    expect(asCsv).toMatchObject({ dated: "2026-09-04", cases: { sha256: sha256(csv), laid: [] } });
    const bytes = workbookOf({ Theatre: rows });
    const asWorkbook = await (await opened("three.xlsx", bytes))({ ask: "report" });
    expect(asWorkbook?.cases.sha256).toBe(sha256(bytes));
    expect(asWorkbook?.cases.rowsKept).toBe(3);
  });

  it("names corrections by the file that they are saved as, and further files by theirs", async () => {
    const ask = await opened("three.csv", csv);
    const later = new TextEncoder().encode(
      `${rows[0]!.join(",")}\n4,d,left,2024-06-01,2025-06-01,attached\n`,
    );
    await ask({ ask: "add cases", name: "later.csv", bytes: later, as: "operations" });
    const value = { file: "three.csv", line: 2, field: "eye", to: "left" };
    const done = await ask({ ask: "correct", values: [value], why: "the drawing" });
    expect(done).toEqual({ done: true, problems: [] });
    const saved = await ask({ ask: "save corrections" });
    const report = await ask({ ask: "report" });
    expect(report?.cases.laid).toEqual([
      { name: "later.csv", sha256: sha256(later), rowsRead: 1 },
      { name: saved.name, sha256: sha256(saved.text) },
    ]);
    expect(saved.name).toBe("three corrections.csv");
  });

  it("holds one finding as the report does, and none of a cell that is not there", async () => {
    const ask = await opened("three.csv", csv);
    const report = await ask({ ask: "report" });
    const finding = await ask({ ask: "finding", cell: "rate" });
    expect(finding).toEqual(report?.cells.find(({ name }) => name === "rate"));
    expect(await ask({ ask: "finding", cell: "no_such_cell" })).toBeNull();
  });

  it("is not to be had without cases", async () => {
    const host = new SheetHost(() => {}, 20_700);
    await host.answer({ ask: "open notebook", name: "small.md", text: notebook });
    expect(await host.answer({ ask: "report" })).toBeNull();
    expect(await host.answer({ ask: "finding", cell: "rate" })).toBeNull();
  });
});
