import { createHmac } from "node:crypto";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readCaseFiles } from "../../src/cases/joining/read-case-files.ts";
import { patientsIn } from "../../src/cases/pseudonyms/patients-in.ts";
import { pseudonymsWithKey } from "../../src/cases/pseudonyms/pseudonyms-with-key.ts";
import { readSecret, writeSecret } from "../../src/cases/pseudonyms/secret-file.ts";
import { codesOf, readText, valuesOf } from "./read-text.ts";

const secret = Uint8Array.from({ length: 32 }, (_, i) => i * 7 + 1);
const encode = (text: string) => new TextEncoder().encode(text);

/** The first 60 bits in base 32, worked out another way. */
function codeFromHex(hex: string): string {
  const signs = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  let rest = BigInt(`0x${hex.slice(0, 15)}`);
  let code = "";
  for (let i = 0; i < 12; i++) {
    code = `${signs[Number(rest % 32n)]}${i > 0 && i % 4 === 0 ? "-" : ""}${code}`;
    rest /= 32n;
  }
  return code;
}

describe("codes by a key", () => {
  test("are HMAC with SHA-256: test case 2 of RFC 4231", async () => {
    const code = await pseudonymsWithKey(encode("Jefe"), ["what do ya want for nothing?"]);
    // HMAC-SHA-256 = 5bdcc146bf60754e...: its first 60 bits.
    expect(code("what do ya want for nothing?")).toBe(codeFromHex("5bdcc146bf60754e"));
  });

  test("agree with another implementation", async () => {
    const patients = ["77", "943 476 5919", "\u00dcn\u00eft", "x".repeat(300)];
    const code = await pseudonymsWithKey(secret, patients);
    for (const patient of patients) {
      const hex = createHmac("sha256", secret).update(patient).digest("hex");
      expect(code(patient)).toBe(codeFromHex(hex));
      expect(code(patient)).toMatch(/^[0-9A-Z]{4}-[0-9A-Z]{4}-[0-9A-Z]{4}$/);
    }
  });

  test("throw for a patient who was not given", async () => {
    const code = await pseudonymsWithKey(secret, ["1"]);
    expect(() => code("2")).toThrow("without a code");
  });

  test("are the same in another file and another order, for both eyes and every operation", async () => {
    const one = "patient,eye,operation_date\n77,R,2024-01-01\n78,L,2024-01-02\n77,L,2024-02-01\n";
    const other = "eye;hospital number\nR;79\nR;77\n";
    const files = [one, other].map((text, i) => ({ name: `${i}.csv`, bytes: encode(text) }));
    const patients = files.flatMap((file) => [...patientsIn(file)]);
    expect(patients).toEqual(["77", "78", "79", "77"]);
    const pseudonym = await pseudonymsWithKey(secret, patients);
    const first = valuesOf(readText(one, { pseudonym }), "patient")!;
    const second = valuesOf(readText(other, { pseudonym }), "patient")!;
    expect(first[2]).toBe(first[0]);
    expect(second[1]).toBe(first[0]);
    expect(new Set([...first, ...second]).size).toBe(3);
    const whole = readCaseFiles(files[0]!, [{ ...files[1]!, as: "operations" }], { pseudonym });
    expect(valuesOf(whole, "patient")).toEqual([...first, ...second]);
  });

  test("differ with another key, and 20,000 of them are distinct", async () => {
    const patients = Array.from({ length: 20_000 }, (_, i) => `SM${i}`);
    const code = await pseudonymsWithKey(secret, patients);
    expect(new Set(patients.map(code)).size).toBe(20_000);
    const another = await pseudonymsWithKey(secret.slice(1), ["SM1"]);
    expect(another("SM1")).not.toBe(code("SM1"));
  });
});

test("two patients with one code are told apart, and that is said", () => {
  const text = "patient,eye\nA,R\nB,R\nA,L\n";
  const reading = readText(text, { pseudonym: () => "same" });
  expect(valuesOf(reading, "patient")).toEqual(["same", "same (2)", "same"]);
  expect(codesOf(reading)).toEqual(["pseudonym-twice"]);
});

describe("one patient written in several ways", () => {
  const text =
    "patient,eye,operation_date\nsm 12,R,2024-01-01\nSM12,L,2024-01-01\n Sm  12 ,R,2024-02-01\n";

  test("has one code: spaces and case are left aside, and that is said", () => {
    const reading = readText(text);
    expect(valuesOf(reading, "patient")).toEqual(["P001", "P001", "P001"]);
    expect(valuesOf(reading, "operation_number")).toEqual([1, 1, 2]);
    expect(reading.problems).toMatchObject([
      { code: "patient-written-variously", severity: "note" },
    ]);
    expect(JSON.stringify(reading)).not.toMatch(/sm ?12/i);
  });

  test.each([
    ["sm12,SM12", 1],
    ["SM12,sm12", 1],
    ["sm12,sM 12,SM12,sm12,SM12", 2],
    ["sm12,sm12", 0],
  ])("%s: %i are written otherwise than the first", (patients, count) => {
    const { problems } = readText(`patient,eye\n${patients.replaceAll(",", ",R\n")},R\n`);
    const said = problems.map(({ message }) => Number(/^\d+/.exec(message)?.[0]));
    expect(said).toEqual(count === 0 ? [] : [count]);
  });

  test("also by the key, in whatever file", async () => {
    const file = { name: "cases.csv", bytes: encode(text) };
    const pseudonym = await pseudonymsWithKey(secret, patientsIn(file));
    const upper = await pseudonymsWithKey(secret, ["SM12"]);
    const code = upper("SM12");
    expect(valuesOf(readText(text, { pseudonym }), "patient")).toEqual([code, code, code]);
  });

  test("who differ only in leading zeros are asked about, by their codes", () => {
    const reading = readText("patient,eye\n0012,R\n13,L\n12,L\nAB012,R\nAB12,R\nA120,R\n");
    expect(new Set(valuesOf(reading, "patient")).size).toBe(6);
    expect(reading.problems).toMatchObject([
      { code: "patients-alike", severity: "query", found: "P001, P003" },
      { code: "patients-alike", severity: "query", found: "P004, P005" },
    ]);
  });

  test("zeros inside or at the end, and a single zero, are part of the identifier", () => {
    expect(codesOf(readText("patient,eye\n102,R\n12,L\n120,L\n0,R\n"))).toEqual([]);
  });
});

describe("the file of the key", () => {
  const secrets = fc.uint8Array({ minLength: 32, maxLength: 32 });

  test("is read as it was written", () => {
    const property = fc.property(secrets, fc.constantFrom("\n", "\r\n"), (any, lineEnd) => {
      const text = writeSecret(any).replaceAll("\n", lineEnd);
      expect(readSecret(text)).toEqual({ ok: true, secret: any });
    });
    fc.assert(property, { seed: 10, numRuns: 200 });
  });

  test("any one sign changed is found", () => {
    const text = writeSecret(secret);
    const places = [...text.matchAll(/[0-9a-f](?=[0-9a-f ]*\n)/g)].map(({ index }) => index);
    const inKey = places.filter((at) => at > text.indexOf("again.") + 6);
    expect(inKey).toHaveLength(68);
    for (const at of inKey) {
      const sign = text[at] === "5" ? "6" : "5";
      expect(readSecret(text.slice(0, at) + sign + text.slice(at + 1)).ok).toBe(false);
    }
  });

  test("anything else is a problem", () => {
    expect(readSecret("case,eye")).toMatchObject({ ok: false, problems: [{ code: "key-unread" }] });
  });
});
