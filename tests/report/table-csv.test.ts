import { describe, expect, test } from "vitest";
import type { AnswerTable } from "../../src/questions/answer.ts";
import { tableCsv } from "../../src/report/table-csv.ts";

describe("an answer's table as CSV", () => {
  const table: AnswerTable = {
    columns: [
      { label: "technique", kind: "text" },
      { label: "failed", kind: "number" },
      { label: "rate", kind: "estimate" },
      { label: "", kind: "mark" },
      { label: "bounds", kind: "interval" },
    ],
    rows: [
      [
        { text: 'so-called "buckle", old', value: 'so-called "buckle", old' },
        { text: "1", value: 1 },
        { text: "33.3% (6.1 – 79.2)", value: 1 / 3, limits: { lower: 0.061, upper: 0.792 } },
        { text: "", value: null, mark: { rate: 1 / 3, lower: 0.061, upper: 0.792, most: 1 } },
        { text: "–", value: null },
      ],
      [
        { text: "=1+1", value: "=1+1" },
        { text: "0", value: 0 },
        { text: "–", value: null },
        { text: "", value: null },
        { text: "0.0 – 1.0%", value: null, limits: { lower: 0, upper: 0.01 } },
      ],
    ],
  };

  // RFC 4180: lines end with CRLF, quotes are doubled, a field with a comma is quoted.
  test("unrounded, intervals in columns of their own, marks left out, quotes doubled", () => {
    expect(tableCsv(table)).toBe(
      [
        'technique,failed,rate,"rate, lower","rate, upper","bounds, lower","bounds, upper"',
        '"so-called ""buckle"", old",1,0.3333333333333333,0.061,0.792,,',
        "'=1+1,0,,,,0,0.01",
        "",
      ].join("\r\n"),
    );
  });

  test("a line break stays within its field", () => {
    const broken: AnswerTable = {
      columns: [{ label: "a\nb", kind: "text" }],
      rows: [[{ text: "x", value: "x\ny" }]],
    };
    expect(tableCsv(broken)).toBe('"a\nb"\r\n"x\ny"\r\n');
  });
});
