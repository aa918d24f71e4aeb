import { describe, expect, test } from "vitest";
import { nationalNumbers } from "../../src/cases/privacy/national-numbers.ts";
import { privateByValues } from "../../src/cases/privacy/private-values.ts";
import { nationalNumberSamples } from "./national-number-samples.ts";

function isValid(name: string, written: string): boolean {
  const scheme = nationalNumbers.find((number) => number.name === name)!;
  const plain = written.replaceAll(/[^A-Z\d]/g, "");
  return scheme.shape.test(written) && scheme.isChecked(plain);
}

describe("national numbers", () => {
  test("every scheme has samples, and every sample a scheme", () => {
    expect(Object.keys(nationalNumberSamples).sort()).toEqual(
      nationalNumbers.map(({ name }) => name).sort(),
    );
  });

  test.each(
    Object.entries(nationalNumberSamples).flatMap(([name, { right }]) =>
      right.map((written) => [written, name]),
    ),
  )("%s is right: %s", (written, name) => {
    expect(isValid(name, written)).toBe(true);
  });

  test.each(
    Object.entries(nationalNumberSamples).flatMap(([name, { wrong }]) =>
      wrong.map((written) => [written, name]),
    ),
  )("%s is wrong: %s", (written, name) => {
    expect(isValid(name, written)).toBe(false);
  });

  test.each(Object.entries(nationalNumberSamples))("a column of them is told: %s", (_, samples) => {
    expect(privateByValues([...samples.right, "", "n/a"])).toBe("health-service number");
  });
});

describe("how many right check digits tell", () => {
  // 943 476 5919 is the health service's own example; the others were made up.
  test("one number of England's among empty values", () => {
    expect(privateByValues(["", "943 476 5919", "", ""])).toBe("health-service number");
    expect(privateByValues(["", "9434765918", "", ""])).toBeUndefined();
  });

  test("one of two, or three of thirty, is luck", () => {
    expect(privateByValues(["9434765919", "1234567890"])).toBeUndefined();
    const others = Array.from({ length: 27 }, (_, i) => String(1_234_500_000 + i * 11 + 1));
    expect(privateByValues([...others, "9434765919", "4505577104", "9876543210"])).toBeUndefined();
  });

  test("two of three, and numbers among other ids", () => {
    expect(privateByValues(["9434765919", "4505577104", "1234567890"])).toBe(
      "health-service number",
    );
    const others = Array.from({ length: 12 }, (_, i) => `X${i}`);
    expect(privateByValues([...others, "9434765919", "4505577104"])).toBe("health-service number");
  });

  test("of a thousand numbers counted up, no scheme finds its own", () => {
    for (const first of [100_000_000, 200_000_000, 1_000_000_000, 3_100_000_000, 12_345_678_900]) {
      const counted = Array.from({ length: 1000 }, (_, i) => String(first + i));
      expect(privateByValues(counted), String(first)).toBeUndefined();
    }
  });
});

describe("decimal numbers", () => {
  const measured = Array.from({ length: 40 }, (_, i) => `${i}.${12_345_678 + 7919 * i}`);

  test("are something measured, however many digits they have", () => {
    expect(privateByValues(measured)).toBeUndefined();
    expect(privateByValues(measured.map((value) => `-${value}`))).toBeUndefined();
  });

  test("among contacts count as values, and hide none", () => {
    const email = Array.from({ length: 10 }, (_, i) => `a${i}@vane.example`);
    expect(privateByValues([...measured, ...email])).toBe("e-mail address");
    expect(privateByValues([...measured, ...email.slice(0, 9)])).toBeUndefined();
    expect(privateByValues([...measured.slice(0, 2), "01632 960001", "07700.900123"])).toBe(
      "telephone number",
    );
  });
});

describe("contact details by value", () => {
  // Numbers and codes set aside for fiction (Ofcom; Royal Mail's ZZ99), example domains (RFC 2606).
  test.each([
    ["e-mail address", "ada@vane.example|bo.finch@example.org|none given|refused|refused twice"],
    ["telephone number", "+44 20 7946 0000|01632 960001"],
    ["telephone number", "(01632) 960 001|07700 900123|tel: 07700 900 456"],
    ["telephone number", "202-555-0142|(202) 555-0143"],
    ["telephone number", "01 23 45 67 89|030/23125 000"],
    ["postcode", "ZZ99 3WZ|ZZ9 4LR|zz99 3wz"],
    ["postcode", "K1A 0B1|H0H 0H0"],
    ["postcode", "1234 AB|1011 XZ|2511BT"],
    ["postcode", "62701-1234|IL 62701"],
    ["postcode", "D-12345|D-54321|CH-8000"],
    ["address", "12 High Street|Flat 2, 14 North Rd|3a Mill Lane, Oldton"],
    ["address", "12 HIGH STREET|4 the old road"],
    ["address", "Hauptstr. 12|Bahnhofstra\u00dfe 5a|Am Kirchplatz 3"],
    ["address", "14 rue de la Paix|Calle Mayor 3|Kerkstraat 5 b"],
    ["address", "12345 Neustadt|54321 Altdorf am See|1234 AB Oldetown"],
    ["address", "Newtown, IL 62701|Oldton, ZZ99 3WZ|PO Box 12"],
  ])("%s: %s", (kind, values) => {
    expect(privateByValues(values.split("|"))).toBe(kind);
  });

  test.each([
    ["places of breaks", "6 to 8 o'clock|3 clock hours|12 o'clock|superior 11 to 1"],
    ["acuities", "6/9|20/40|20/40+1|0.3 logMAR|70 letters|6/60 PH 6/12|HM|CF 2 m"],
    ["scarring", "CA 4|CP3|C3 P|CP 4 CA2|D1|B|CA12 CP6"],
    ["oils", "1000 cs|5000 cs|1000 CS|5700 CS|1300 CS|5000 oil"],
    ["lasers", "1064 nm|532 NM|1000 mW|200 MW|810 NM"],
    ["elements", "276 tyre|240 band|5 mm sponge|41 Band|2 Radial 1 Band|287 Circling Band"],
    ["dates", "01.02.2024|2024-03-01|3 March 2024|01/02/2024 08:30|01-02-2024 12-02-2024"],
    ["months", "2024 March|2023 Spring|March 2024|10/2024"],
    ["pressures", "12|14 mmHg|20 30 40|12-14-16|10/12/14/16"],
    ["refraction", "-1.25 -0.50 x 90|+2.00/-1.00x180|+12.50|0.123456789"],
    ["units", "10000 Units|20000 Units|5000 IU|1500 MG"],
    ["years", "2021|2022|2023|2024"],
    ["times", "08:30|10:45|1030 AM|0930 PM"],
    ["steps", "2 visits close together|2 tears in a row|3 holes on the way"],
    ["own ids", "RD0001|RD0002|RD0003|RD0004|RD0005|RD0006"],
    ["lots", "23G-4512|25G-8812|LOT 12345|LOT 12346"],
  ])("%s are none of it", (_, values) => {
    expect(privateByValues(values.split("|"))).toBeUndefined();
    for (const value of values.split("|")) expect(privateByValues([value]), value).toBeUndefined();
  });
});
