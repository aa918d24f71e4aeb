import { execFileSync } from "node:child_process";
import { resolve } from "node:path";
import { build } from "vite";
import { beforeAll, expect, test } from "vitest";

const outDir = resolve("out/zones");
const zones = ["UTC", "Pacific/Apia", "America/Sao_Paulo", "Asia/Beirut"];

beforeAll(async () => {
  await build({
    configFile: false,
    logLevel: "silent",
    publicDir: false,
    build: { ssr: resolve("tests/cases/zones/print-days.ts"), outDir, emptyOutDir: true },
  });
}, 120_000);

const dayLength = 86_400_000;

/**
 * Days at which clocks misbehave somewhere (IANA time zone database): 2011-12-30 never was in Apia;
 * midnight of 2018-11-04 never was in S\u00e3o Paulo, nor that of 2022-03-27 in Beirut; ends of years
 * and a leap day besides.
 */
const days = ["2011-12-30", "2018-11-04", "2022-03-27", "2000-02-29", "1999-12-31", "2024-01-01"];

/** Ways of writing a day, by the name of the column that holds it so. */
const ways: Readonly<Record<string, (iso: string) => string>> = {
  iso: (iso) => iso,
  at_midnight: (iso) => `${iso}T00:00:00`,
  late: (iso) => `${iso} 23:59:59`,
  zulu: (iso) => `${iso}T23:30:00Z`,
  offset: (iso) => `${iso}T00:30:00+13:00`,
  compact: (iso) => iso.replaceAll("-", ""),
  day_first: (iso) => iso.split("-").reverse().join("/"),
  month_first: (iso) => `${iso.slice(5, 7)}/${iso.slice(8)}/${iso.slice(0, 4)}`,
  dots: (iso) => iso.split("-").reverse().join("."),
  short: (iso) => `${iso.slice(8)}/${iso.slice(5, 7)}/${iso.slice(2, 4)}`,
  named: (iso) => `${iso.slice(8)}-${monthOf(iso).slice(0, 3)}-${iso.slice(0, 4)}`,
  in_full: (iso) => `${monthOf(iso)} ${iso.slice(8)} ${iso.slice(0, 4)}`,
  serial: (iso) => String(dayNumber(iso) + 25_569),
};

function monthOf(iso: string): string {
  const months =
    "January February March April May June July August September October November December";
  return months.split(" ")[Number(iso.slice(5, 7)) - 1]!;
}

function dayNumber(iso: string): number {
  return Date.parse(`${iso}T00:00:00Z`) / dayLength;
}

/** Bare numbers are taken for days only in the columns of fields. */
const fields: Readonly<Record<string, string>> = {
  serial: "operation_date",
  compact: "last_seen_date",
};
const columns = Object.keys(ways).map((name) => fields[name] ?? name);
const file = [
  ["eye", ...columns].join(","),
  ...days.map((iso) => ["R", ...Object.values(ways).map((write) => write(iso))].join(",")),
].join("\n");

interface Printed {
  readonly zone: readonly number[];
  readonly days: Readonly<Record<string, readonly (number | null)[]>>;
  readonly problems: readonly string[];
}

function readIn(zone: string): Printed {
  const program = [resolve(outDir, "print-days.js"), ...columns];
  const env = { ...process.env, TZ: zone };
  return JSON.parse(execFileSync(process.execPath, program, { env, input: file }).toString());
}

test("the same file gives the same days in every zone, and those are the days written", () => {
  const printed = zones.map(readIn);
  expect(new Set(printed.map(({ zone }) => zone.join(" "))).size).toBe(zones.length);
  for (const { days: read, problems } of printed) {
    for (const column of columns) expect(read[column], column).toEqual(days.map(dayNumber));
    expect(problems).toEqual(["day-counts operation_date"]);
  }
}, 60_000);
