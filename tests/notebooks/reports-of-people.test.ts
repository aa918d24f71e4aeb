import { readFileSync } from "node:fs";
import { csvFormatRows, csvParseRows } from "d3-dsv";
import { strFromU8, unzipSync } from "fflate";
import { beforeAll, describe, expect, test } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import { everythingZip } from "../../src/report/files/report-files.ts";
import type { ReportInput } from "../../src/report/report-input.ts";
import { ask, casesValue, workedOut } from "../questions/ask.ts";
import { answeredOf, reportOfText } from "../report/disclosure/shared-notebook.ts";

/*
 * The report of one person holds nothing of any one other: not the code, in whatever file it is
 * written, and nobody's numbers of eyes and failures side by side. So that codes cannot be taken for
 * words, the surgeons of the invented unit stand under longer ones.
 */
const codes = ["A", "B", "C", "D", "E", "F", "T1", "T2", "T3"] as const;
const longCode = (code: string): string => `Q7${code}X9`;

const bytes = new TextEncoder().encode(
  withLongCodes(readFileSync("data-demo/repairs.csv", "utf8")),
);
const reading = readCases({ name: "cases.csv", bytes }, { today: 20_543 });
const eyes = workedOut("index_eyes(cases, from: 2023-01-01, to: 2025-12-31)", {
  cases: casesValue(reading),
});

function withLongCodes(csv: string): string {
  const [headings = [], ...rows] = csvParseRows(csv);
  const people = new Set(["Surgeon", "supervisor"].map((heading) => headings.indexOf(heading)));
  const recoded = rows.map((row) =>
    row.map((value, at) => (people.has(at) && value !== "" ? longCode(value) : value)),
  );
  return csvFormatRows([headings, ...recoded]);
}

/** The notebook of another person: their own code, and nothing that was minuted of the first. */
function notebookOf(name: string, own: string): string {
  return readFileSync(`notebooks/${name}.md`, "utf8")
    .replace(/^( {4}(?:mine|trainee) = )"\w+"$/m, `$1"${longCode(own)}"`)
    .replace(/^ {6}minuted .*\n/gm, "");
}

/** Every file that can be written, those of the slides among them, as text. */
async function allFiles(input: ReportInput): Promise<Map<string, string>> {
  const zip = unzipSync(await everythingZip(input, async () => undefined));
  const slides = unzipSync(zip["slides.pptx"] ?? new Uint8Array());
  return new Map(
    Object.entries({ ...zip, ...slides }).map(([name, content]) => [name, strFromU8(content)]),
  );
}

describe.each([
  ...["A", "B", "C", "D", "E", "F"].map((own) => ({ name: "surgeon-review", own })),
  ...["T1", "T2", "T3"].map((own) => ({ name: "trainee-benchmarking", own })),
])("the report of $own by $name", ({ name, own }) => {
  const others = codes.filter((code) => code !== own);
  let input: ReportInput;
  let files: Map<string, string>;
  beforeAll(async () => {
    input = await reportOfText(notebookOf(name, own), bytes);
    files = await allFiles(input);
  }, 60_000);

  test("has every answer, of the one who asks", () => {
    expect(input.cells.filter(({ state }) => state.status !== "current")).toEqual([]);
    const written = [...files].filter(([, text]) => text.includes(longCode(own)));
    const kinds = new Set(written.map(([file]) => file.replace(/^.*\.|\d+/g, "")));
    expect([...kinds]).toEqual(expect.arrayContaining(["html", "json", "csv", "xml"]));
  });

  test("names nobody else in any file: page, tables, results, pictures, slides", () => {
    expect([...files.keys()].length).toBeGreaterThan(40);
    const named = [...files].flatMap(([file, text]) =>
      others.filter((code) => text.includes(longCode(code))).map((code) => `${file}: ${code}`),
    );
    expect(named).toEqual([]);
  });

  test("opens no eye of anybody else, but in what is of the whole unit", () => {
    const theirs = new Map(others.flatMap((other) => linesOf(other).map((line) => [line, other])));
    expect(theirs.size).toBeGreaterThan(300);
    const opened = input.cells.flatMap((cell) => {
      const { answer, picks, record } = answeredOf(cell) ?? {};
      if (answer === undefined || answer.question === "periods") return [];
      // Rows that the reader's own condition left out are the file's, as they hold it.
      const asked = new Set(
        answer.leftOut.flatMap(({ reason, pick }) => (/surgeon = mine/.test(reason) ? [pick] : [])),
      );
      const lines = [...(picks ?? [])]
        .filter(([pick]) => !asked.has(pick))
        .flatMap(
          ([, { rows }]) => record?.describe(rows).rows.flatMap((row) => row.lines[0] ?? []) ?? [],
        );
      return lines.flatMap((line) => theirs.get(line) ?? []).map((other) => [cell.name, other]);
    });
    expect(opened).toEqual([]);
  });

  test("sets nobody else's eyes and failures side by side", () => {
    for (const other of others) {
      const { known, failed } = countsOf(other);
      expect(known).toBeGreaterThan(5);
      const rows = input.cells.flatMap((cell) => answeredOf(cell)?.answer.table.rows ?? []);
      const isTold = (row: (typeof rows)[number]) =>
        row.some(({ value }, at) => value === known && row[at + 1]?.value === failed);
      const told = rows.filter((row) => isTold(row) && row.every(({ pick }) => pick === undefined));
      expect(told).toEqual([]);
    }
  });
});

describe("the report of A in a small unit", () => {
  const textsOf = async (surgeons: readonly string[]) => {
    const input = await reportOfText(notebookOf("surgeon-review", "A"), fileOf(surgeons));
    const texts = [...(await allFiles(input)).values()].join("\n");
    const faults = input.cells.flatMap(({ name, state }) =>
      state.status === "at fault" ? state.problems.map(({ code }) => `${name}: ${code}`) : [],
    );
    return { texts, faults };
  };

  test("of three surgeons: the other two stand together, under no code", async () => {
    const { texts, faults } = await textsOf(["A", "B", "C"]);
    expect(faults).toEqual([]);
    expect(texts).toContain(`the unit without ${longCode("A")}`);
    for (const code of ["B", "C"]) expect(texts).not.toContain(longCode(code));
  });

  test("of two surgeons: what would be the other's results is refused, and they are not named", async () => {
    const { texts, faults } = await textsOf(["A", "B"]);
    const refused = ["own", "expected", "placed", "watched", "gathered"];
    expect(faults).toEqual(refused.map((name) => `${name}: others-are-one`));
    expect(texts).not.toContain(longCode("B"));
  });
});

/** The cases of these surgeons, whoever supervised left out. */
function fileOf(surgeons: readonly string[]): Uint8Array {
  const [headings = [], ...rows] = csvParseRows(new TextDecoder().decode(bytes));
  const [own, supervisor] = ["Surgeon", "supervisor"].map((each) => headings.indexOf(each));
  const codes = new Set(surgeons.map(longCode));
  const kept = rows.filter((row) => codes.has(row[own ?? 0] ?? ""));
  const without = kept.map((row) => row.map((value, at) => (at === supervisor ? "" : value)));
  return new TextEncoder().encode(csvFormatRows([headings, ...without]));
}

/** The lines of the primary repairs of a surgeon's known eyes; a later one may be another's. */
function linesOf(code: string): number[] {
  return ownEyesOf(code)
    .lines("s0:known")
    .flatMap(([first]) => first ?? []);
}

function countsOf(code: string) {
  const { figures } = ownEyesOf(code);
  return { known: Number(figures.eyes), failed: Number(figures.failed) };
}

function ownEyesOf(code: string) {
  return ask(`my_eyes(eyes, surgeon: "${longCode(code)}", within: 3 months, tolerance: 2 weeks)`, {
    eyes,
  });
}
