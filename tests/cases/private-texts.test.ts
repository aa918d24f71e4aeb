import { describe, expect, test } from "vitest";
import { withheld, withoutIdentifiers } from "../../src/cases/privacy/identifiers-in-text.ts";
import { everyText } from "./every-text.ts";
import { readText, valuesOf } from "./read-text.ts";

describe("identifiers inside a text", () => {
  // Numbers set aside for fiction (Ofcom, NANPA), example domains (RFC 2606), numbers made up.
  test.each([
    ["call 07700 900123 first", `call ${withheld} first`],
    ["home 01632 960 001, no answer", `home ${withheld}, no answer`],
    ["ring (020) 7946 0000.", `ring ${withheld}.`],
    ["+44 20 7946 0000 (daughter)", `${withheld} (daughter)`],
    ["tel 202-555-0142; seen", `tel ${withheld}; seen`],
    ["wrote to ada.vane+x@mail.example.org, flat", `wrote to ${withheld}, flat`],
    ["NHS 943 476 5919 checked", `NHS ${withheld} checked`],
    ["nhs no 9434765919", `nhs no ${withheld}`],
    ["SSN 078-05-1120.", `SSN ${withheld}.`],
    ["PPS 1234567T", `PPS ${withheld}`],
    ["NI AB 12 34 56 C given", `NI ${withheld} given`],
    ["pnr 880320-0016 ok", `pnr ${withheld} ok`],
    ["n\u00b0 2 95 10 99 126 111 93", `n\u00b0 ${withheld}`],
    ["DOB 12/3/1950, flat", `${withheld}, flat`],
    ["born on 3rd March 1950", withheld],
    ["lives at 14 High Street alone", `lives at ${withheld} alone`],
    ["moved to ZZ99 3WZ", `moved to ${withheld}`],
    ["a@b.example and 07700 900123", `${withheld} and ${withheld}`],
  ])("%s", (text, left) => {
    expect(withoutIdentifiers(text)).toBe(left);
  });

  test.each([
    "breaks at 6 to 8 o'clock, 3 clock hours",
    "VA 6/9 to 6/60, later 20/40 20/60 20/80",
    "IOP 12 14 16 18 20 22",
    "IOP 32-28-16-14 on days 1-2-3-4",
    "refraction +2.50/-1.25 x 090, later -10.50 -0.75 x 180",
    "seen 05/06/2024 07/08/2024 09.10.2024",
    "seen 2024-03-01, again 2024-04-12 08:30",
    "C3F8 14%, oil 1000 cs, 276 tyre, 240 band",
    "CA 4 CP3, then CP 12",
    "axial length 23.45678901 mm, score 0.123456789",
    "laser 1064 nm 200 mW 532 shots",
    "0.5 0.32 0.25 0.2 0.16",
    "born preterm at 28 weeks in 1950",
    "3 tears on the way to the ora, 1 in lattice",
    "photo 12345678 filed",
    "n/a",
    "",
  ])("nothing is taken out of: %s", (text) => {
    expect(withoutIdentifiers(text)).toBe(text);
  });
});

describe("a reading of remarks with identifiers in them", () => {
  const remarks = [
    "call 07700 900123",
    "wrote to ada@vane.example",
    "NHS 943 476 5919",
    "flat",
    "postured well",
    "attached at once",
    "macula thin",
    "no view",
    "oil out soon",
  ];
  const rows = remarks.map((remark, i) => `${i + 1},R,2024-01-0${i + 1},5${i},${remark}`);
  const reading = readText(
    ["Contact: office@unit.example", "case,eye,operation_date,age,notes", ...rows].join("\n"),
  );

  test("keeps the remarks and none of the identifiers", () => {
    expect(valuesOf(reading, "notes")?.slice(0, 4)).toEqual([
      `call ${withheld}`,
      `wrote to ${withheld}`,
      `NHS ${withheld}`,
      "flat",
    ]);
    expect(everyText(reading)).not.toMatch(/900123|vane|943 476|office@/);
  });

  test("asks about each line", () => {
    const asked = reading.problems.filter(({ code }) => code === "identifier-in-text");
    expect(asked.map(({ place, found }) => [place.line, found])).toEqual([
      [3, undefined],
      [4, undefined],
      [5, undefined],
    ]);
  });

  test("shows no identifier that stands where a number or a code should", () => {
    const text =
      "case,eye,operation_date,age,technique\n1,R,2024-01-01,07700 900123,PPV\n2,L,2024-01-02,60,call 07700 900124\n3,L,2024-01-02,61,SB\n";
    const strayed = readText(text);
    expect(strayed.problems.map(({ code }) => code)).toEqual(["not-a-number", "code-unknown"]);
    expect(everyText(strayed)).not.toContain("900");
  });
});
