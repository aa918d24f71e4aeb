import { describe, expect, test } from "vitest";
import { describeDictionary } from "../../src/cases/describe-dictionary.ts";
import { readCases } from "../../src/cases/read-cases.ts";
import { fieldsSection } from "../../src/report/fields-section.ts";
import { fieldsUsed } from "../../src/report/fields-used.ts";

const text = `Case,Patient ID,Side,Date of op,Procedure,Ward,Surname
1,P1,Rt,2025-01-06,SB,7,Doe
2,P2,left,2025-02-03,,8,Roe
`;
const reading = readCases(
  { name: "ops.csv", bytes: new TextEncoder().encode(text) },
  { today: 20_543 },
);

describe("what the columns of a file mean", () => {
  test("the fields that were read, in the words of the dictionary, with the file's own headings", () => {
    const fields = fieldsUsed(reading);
    expect(fields.map(({ name, heading, missing }) => [name, heading, missing])).toEqual([
      ["case", "Case", 0],
      ["patient", "Patient ID", 0],
      ["eye", "Side", 0],
      ["operation_date", "Date of op", 0],
      ["technique", "Procedure", 1],
    ]);
    const told = new Map(describeDictionary().map((field) => [field.name, field]));
    for (const { name, holds, meaning } of fields) {
      expect({ holds, meaning }).toEqual({
        holds: told.get(name)?.holds,
        meaning: told.get(name)?.meaning,
      });
    }
  });

  test("columns of the file's own and dropped ones are not among them", () => {
    const section = String(fieldsSection(fieldsUsed(reading), reading)?.text);
    expect(section).toContain("missing of 2");
    expect(section).toContain("Date of op");
    expect(section).not.toContain("Ward");
    expect(section).not.toContain("Surname");
  });

  test("without any there is no section", () => {
    expect(fieldsSection([], { rowsRead: 3 })).toBeUndefined();
  });
});
