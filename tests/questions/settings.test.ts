import { describe, expect, test } from "vitest";
import { settingOf } from "../../src/questions/settings/setting-of.ts";
import { withSetting } from "../../src/questions/settings/with-setting.ts";
import { workedOut } from "./ask.ts";

describe("settings", () => {
  test("a choice is worth what is chosen now", () => {
    const working = 'choose(["a", "b"], now: "b")';
    expect(workedOut(working)).toEqual({ kind: "text", text: "b" });
    expect(settingOf(working)).toEqual({ type: "choice", options: ["a", "b"], now: 1 });
    expect(withSetting(working, 0)).toBe('choose(["a", "b"], now: "a")');
  });

  test("lengths of time can be chosen from", () => {
    const working = "choose([3 months, 12 months], now: 12 months)";
    expect(settingOf(working)).toMatchObject({ options: ["3 months", "12 months"], now: 1 });
    expect(workedOut(withSetting(working, 0))).toMatchObject({ kind: "duration", days: 91 });
  });

  test("a number, a yes/no and two days", () => {
    expect(settingOf("range(-1, 1, step: 0.5, now: 0)")).toEqual({
      type: "number",
      least: -1,
      most: 1,
      step: 0.5,
      now: 0,
    });
    expect(withSetting("range(0, 30, now: 10)", 12)).toBe("range(0, 30, now: 12)");
    expect(withSetting("yes_no(now: true)", false)).toBe("yes_no(now: false)");
    const dates = "dates(2023-01-01, 2025-12-31)";
    expect(settingOf(dates)).toEqual({ type: "dates", from: 19358, to: 20453 });
    expect(withSetting(dates, [19359, 20452])).toBe("dates(2023-01-02, 2025-12-30)");
    expect(workedOut("period.from", { period: workedOut(dates) })).toEqual({
      kind: "day",
      day: 19358,
    });
  });

  test("a number keeps the unit that it is written with", () => {
    const share = "range(5%, 30%, step: 1%, now: 13%)";
    expect(settingOf(share)).toEqual({
      type: "number",
      least: 5,
      most: 30,
      step: 1,
      now: 13,
      unit: "%",
    });
    expect(withSetting(share, 14)).toBe("range(5%, 30%, step: 1%, now: 14%)");
    expect(workedOut(withSetting(share, 14))).toEqual({ kind: "number", number: 0.14 });
    const time = "range(0 days, 28 days, step: 7 days, now: 14 days)";
    expect(settingOf(time)).toMatchObject({ least: 0, most: 28, step: 7, now: 14, unit: "days" });
    expect(withSetting(time, 1)).toBe("range(0 days, 28 days, step: 7 days, now: 1 day)");
    expect(workedOut(time)).toMatchObject({ kind: "duration", days: 14 });
    expect(() => workedOut("range(0 days, 4 weeks, now: 3 months)")).toThrow(
      "a length of time from 0 days to 4 weeks",
    );
    expect(() => workedOut("range(0, 4 weeks, now: 3)")).toThrow("numbers of one kind");
    expect(settingOf("range(0%, 0.3, now: 10%)")).toBeUndefined();
  });

  test("what does not fit says so", () => {
    expect(() => workedOut('choose(["a"], now: "c")')).toThrow("not among the options");
    expect(() => workedOut("range(0, 30, now: 31)")).toThrow("a number from 0 to 30");
    expect(() => workedOut("dates(2025-01-01, 2024-01-01)")).toThrow("comes before the first");
  });

  test("what is no setting, or not written in literals, is none, and a misfit changes nothing", () => {
    expect(settingOf("1 + 1")).toBeUndefined();
    expect(settingOf("choose(options, now: 3)")).toBeUndefined();
    expect(settingOf("choose([")).toBeUndefined();
    expect(withSetting('choose(["a"], now: "a")', 7)).toBe('choose(["a"], now: "a")');
    expect(withSetting("yes_no(now: true)", 3)).toBe("yes_no(now: true)");
  });
});
