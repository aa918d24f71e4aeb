import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { run } from "../../src/command/run.ts";

const folder = mkdtempSync(join(tmpdir(), "holdfast-"));
afterAll(() => rmSync(folder, { recursive: true }));

const headings =
  "Hospital number,Surname,DOB,NHS number,e-mail,Tel (home),eye,operation_date,technique,surgeon,last_seen_date,status_last_seen,remarks";

/** Forty eyes of invented people: numbers set aside for fiction (Ofcom), example domains (RFC 2606). */
const rows = Array.from({ length: 40 }, (_, i) =>
  [
    `HX${4100 + i}`,
    `Vanehouse${String.fromCharCode(65 + (i % 26))}`,
    `19${40 + i}-03-0${1 + (i % 9)}`,
    "943 476 5919",
    `vane${i}@mail.example`,
    `07700 900${100 + i}`,
    i % 2 ? "R" : "L",
    `2024-0${1 + (i % 9)}-1${i % 8}`,
    i % 3 ? "PPV" : "SB",
    i % 2 ? "Dr Ottoline Quay" : "Dr Ivo Strand",
    `2025-0${1 + (i % 9)}-11`,
    i % 7 ? "attached" : "detached",
    `remarkable curtain ${i}, daughter on 07700 90${1100 + i}`,
  ]
    .join(",")
    .replace(/(remarkable.*)$/, '"$1"'),
);

const secrets = [
  /HX41\d\d/,
  /Vanehouse/,
  /19[4-7]\d-03/,
  /943.?476/,
  /mail\.example/,
  /07700/,
  /Ottoline|Strand/,
  /remarkable|curtain|daughter/,
];

/** Every text that a report writes, the compressed ones left out. */
async function written(workings: string, ...more: string[]): Promise<readonly string[]> {
  const [notebook, cases] = [join(folder, "n.md"), join(folder, "cases.csv")];
  const into = mkdtempSync(join(folder, "out-"));
  writeFileSync(notebook, `---\nholdfast: 1\n---\n\n    eyes = index_eyes(cases)\n\n${workings}\n`);
  writeFileSync(cases, [headings, ...rows, ""].join("\n"));
  let said = "";
  const keep = (text: string): void => {
    said += text;
  };
  const surroundings = { say: keep, warn: keep, isTerminal: false, today: 20_543 };
  await run(["report", notebook, cases, "--into", into, ...more], surroundings);
  return [said, ...readdirSync(into).map((name) => readFileSync(join(into, name), "utf8"))];
}

const ordinary = [
  "    flow = case_flow(eyes)",
  "    rate = failure_rate(eyes, by: technique)",
  "    by_surgeon = failure_rate(eyes, by: surgeon)",
  "    curve = attachment_curve(eyes, by: eye)",
  "    causes = failure_causes(eyes)",
].join("\n\n");

describe("an ordinary report of a file with remarks and identifiers", () => {
  test("holds its numbers, and none of the texts", async () => {
    const texts = await written(ordinary);
    expect(texts.join("\n")).toMatch(/of 40/);
    expect(texts).toHaveLength(9);
    for (const secret of secrets) for (const text of texts) expect(text).not.toMatch(secret);
  });

  test("not where a question names the column of remarks", async () => {
    const texts = await written("    by_remark = failure_rate(eyes, by: remarks)");
    expect(texts[0]).toContain("remarks takes 40 different values");
    for (const secret of secrets) for (const text of texts) expect(text).not.toMatch(secret);
  });
});
