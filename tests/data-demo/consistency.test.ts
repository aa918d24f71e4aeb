import { describe, expect, it } from "vitest";
import { generateDemo } from "../../data-demo/generate.ts";
import { dayOf } from "../../data-demo/theatre-day.ts";
import { demo, period } from "../../data-demo/truth.ts";
import { type FileRow, fileRows, rowsByEye } from "./file-rows.ts";

const { csv, truth } = generateDemo(demo.seed, { eyes: 3000, faults: false });
const rows = fileRows(csv);
const eyes = rowsByEye(rows);
const faulty = (isSound: (row: FileRow) => boolean) =>
  rows.filter((row) => !isSound(row)).map((row) => row.case);
const dateFields = [
  "last_seen_date",
  "redetachment_date",
  "oil_removed_date",
  "death_date",
  "acuity_after_date",
];

describe("dates", () => {
  it("are calendar days from the operation to the extract day", () => {
    const isSound = (row: FileRow) =>
      dateFields
        .map((field) => row[field]!)
        .filter((date) => date !== "")
        .every(
          (date) =>
            dayOf(date) >= dayOf(row.operation_date!) && dayOf(date) <= dayOf(period.extract),
        );
    expect(faulty(isSound)).toEqual([]);
  });

  it("follow one another: redetachment, oil removal and acuity by the last visit, then death", () => {
    const isSound = (row: FileRow) =>
      row.last_seen_date === "" ||
      (["redetachment_date", "oil_removed_date", "acuity_after_date"].every(
        (field) => row[field]! <= row.last_seen_date!,
      ) &&
        (row.death_date === "" || row.death_date! >= row.last_seen_date!));
    expect(faulty(isSound)).toEqual([]);
  });

  it("of primary repairs lie in the period", () => {
    const primaries = rows.filter((row) => row.operation_number === "1");
    const outside = primaries.filter(
      ({ operation_date }) => operation_date! < period.first || operation_date! > period.last,
    );
    expect(outside).toEqual([]);
  });

  it("put the rows in order, with cases numbered in that order", () => {
    expect(rows.map((row) => row.case)).toEqual(
      rows.map((_, index) => String(index + 1).padStart(4, "0")),
    );
    const days = rows.map((row) => row.operation_date!);
    expect(days).toEqual([...days].sort());
  });
});

describe("the operations of an eye", () => {
  it("are numbered from 1, on later and later days", () => {
    for (const operations of eyes.values()) {
      expect(operations.map((row) => row.operation_number)).toEqual(
        operations.map((_, index) => String(index + 1)),
      );
      const days = operations.map((row) => row.operation_date!);
      expect(days).toEqual([...new Set(days)].sort());
    }
  });

  it("follow a failure or oil, and each was last seen on the day of the next", () => {
    for (const operations of eyes.values()) {
      for (const [index, row] of operations.slice(0, -1).entries()) {
        const next = operations[index + 1]!;
        expect(row.last_seen_date).toBe(next.operation_date);
        const oilOut = next.technique === "oil removal";
        expect(row.status_last_seen).toBe(oilOut ? "attached under oil" : "detached");
        if (oilOut) expect(row.oil_removed_date).toBe(next.operation_date);
      }
    }
  });

  it("begin with a primary technique", () => {
    const later = ["buckle revision", "gas injection", "oil removal"];
    const wrong = [...eyes.values()].filter(([first]) => later.includes(first!.technique!));
    expect(wrong).toEqual([]);
  });

  it("take oil out after about three to six months", () => {
    const removals = rows.filter(
      ({ status_last_seen, oil_removed_date }) =>
        status_last_seen === "attached under oil" && oil_removed_date !== "",
    );
    const days = removals.map((row) => dayOf(row.oil_removed_date!) - dayOf(row.operation_date!));
    expect(days.length).toBeGreaterThan(50);
    expect(Math.min(...days)).toBeGreaterThanOrEqual(95);
    expect(Math.max(...days)).toBeLessThanOrEqual(187);
  });
});

describe("a row", () => {
  it("is detached exactly where a failure is recorded", () => {
    const isSound = (row: FileRow) =>
      (row.status_last_seen === "detached") ===
      (row.redetachment_date !== "" || row.never_attached === "yes");
    expect(faulty(isSound)).toEqual([]);
  });

  it("has a cause only with a failure, and a buckle's cause only with a buckle", () => {
    const isSound = ({ failure_cause, status_last_seen, technique }: FileRow) =>
      failure_cause === "" ||
      (status_last_seen === "detached" &&
        (!failure_cause!.startsWith("buckle") || technique!.includes("buckle")));
    expect(faulty(isSound)).toEqual([]);
  });

  it("uses no gas where gas is unsuitable", () => {
    const gases = ["air", "SF6", "C2F6", "C3F8"];
    const isSound = (row: FileRow) =>
      row.gas_unsuitable !== "yes" || !gases.includes(row.tamponade!);
    expect(faulty(isSound)).toEqual([]);
  });

  it("accounts for its oil", () => {
    const isSound = (row: FileRow) =>
      row.tamponade !== "silicone oil" ||
      row.oil_removed_date !== "" ||
      row.status_last_seen !== "attached";
    expect(faulty(isSound)).toEqual([]);
  });

  it("has quadrants, PVR extent and macula days that agree", () => {
    const isSound = (row: FileRow) =>
      (row.clock_hours_detached === "" ||
        Number(row.quadrants_detached) === Math.ceil(Number(row.clock_hours_detached) / 3)) &&
      (row.pvr_zone === "") === (row.pvr_grade !== "C") &&
      (row.macula_off_days === "" || row.macula === "off") &&
      (row.symptom_days === "" || Number(row.macula_off_days) <= Number(row.symptom_days) + 1);
    expect(faulty(isSound)).toEqual([]);
  });

  it("names a supervisor exactly where the operation was not independent", () => {
    const isSound = ({ supervision, supervisor }: FileRow) =>
      supervision === "" || (supervision === "independent") === (supervisor === "");
    expect(faulty(isSound)).toEqual([]);
  });

  it("has a patient under one sex, aged as time passes, in both eyes", () => {
    for (const patient of new Set(rows.map((row) => row.patient))) {
      const own = rows.filter((row) => row.patient === patient);
      expect(new Set(own.map((row) => row.sex)).size).toBe(1);
      const ages = own.map((row) => Number(row.age));
      expect(ages).toEqual([...ages].sort((a, b) => a - b));
    }
  });
});

describe("the truth beside the file", () => {
  it("has each eye once, under the case of its primary repair", () => {
    expect(truth.length).toBe(3000);
    const byCase = new Map(rows.map((row) => [row.case, row]));
    for (const eye of truth) {
      const row = byCase.get(eye.case)!;
      expect([row.patient, row.eye, row.technique, row.surgeon, row.operation_number]).toEqual([
        eye.patient,
        eye.eye,
        eye.technique,
        eye.surgeon,
        "1",
      ]);
    }
  });

  it("shows a failure in the file only where one is true", () => {
    const failing = new Set(truth.filter(({ failure }) => failure !== null).map((eye) => eye.case));
    const failed = rows.filter(
      (row) => row.operation_number === "1" && row.status_last_seen === "detached",
    );
    expect(failed.filter((row) => !failing.has(row.case!))).toEqual([]);
    expect(failed.length).toBeGreaterThan(300);
  });
});
