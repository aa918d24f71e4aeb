import { seededRandom } from "../../data-demo/random.ts";
import { formatDay } from "../../src/cases/calendar-day.ts";

const headings =
  "case,patient,eye,operation_date,surgeon,surgeon_grade,age,sex,lens,macula,symptom_days,clock_hours_detached,break_type,break_count,pvr_grade,trauma,axial_length,acuity_before,technique,tamponade,last_seen_date,status_last_seen,redetachment_date,acuity_after,notes";

/** A file of 25 columns of sound cases, whatever its size, one row an eye. */
export function caseFileText(rows: number): string {
  const random = seededRandom(25);
  const of = (values: readonly string[]) => values[random.whole(0, values.length - 1)]!;
  const lines = [headings];
  for (let i = 0; i < rows; i++) {
    const operated = 15_000 + random.whole(0, 5000);
    const seen = operated + random.whole(20, 700);
    const failed = random.chance(0.15);
    lines.push(
      [
        `C${i}`,
        `${10_000_000 + i}`,
        of(["R", "L"]),
        formatDay(operated),
        of(["A", "B", "C", "D"]),
        of(["consultant", "fellow", "trainee"]),
        random.whole(18, 92),
        of(["M", "F"]),
        of(["phakic", "IOL"]),
        of(["on", "off", "split", ""]),
        random.whole(0, 90),
        random.whole(1, 12),
        of(["HST", "RH", "HST;RH", "dialysis"]),
        random.whole(1, 6),
        of(["none", "A", "B", "CP3", ""]),
        of(["yes", "no"]),
        random.whole(2100, 2900) / 100,
        of(["6/6", "6/9", "6/12", "6/60", "CF", "HM", ""]),
        of(["SB", "PPV", "PPV + SB"]),
        of(["none", "SF6", "C3F8"]),
        formatDay(seen),
        failed ? "detached" : "attached",
        failed ? formatDay(operated + random.whole(1, 19)) : "",
        of(["6/6", "6/9", "0.3 logMAR", ""]),
        of(["", "", `"routine, seen on day ${i % 90}"`]),
      ].join(","),
    );
  }
  return `${lines.join("\n")}\n`;
}
