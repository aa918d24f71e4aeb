import { readFileSync } from "node:fs";
import { columnNamed } from "../../../src/cases/table.ts";
import { readText } from "../read-text.ts";

/**
 * A program of its own: reads a file of cases from standard input and prints the zone that it runs
 * in, the days of each column named, and the problems.
 */
const [, , ...names] = process.argv;
const reading = readText(readFileSync(0, "utf8"), { today: 20_543 });
const days = names.map((name) => [name, columnNamed(reading.cases, name)?.values]);
const zone = [new Date(2024, 0, 1), new Date(2024, 6, 1)].map((day) => day.getTimezoneOffset());
const problems = reading.problems.map(({ code, place }) => `${code} ${place.field}`);
process.stdout.write(JSON.stringify({ zone, days: Object.fromEntries(days), problems }));
