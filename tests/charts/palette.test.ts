import { describe, expect, it } from "vitest";
import { darkPalette, groupDashes, type Palette, paperPalette } from "../../src/charts/palette.ts";
import { groupStyles } from "../../src/charts/theme.ts";

type Triple = readonly [number, number, number];

/**
 * Colour blindness in full severity, on linear sRGB: Machado, Oliveira and Fernandes, IEEE Trans
 * Vis Comput Graph 2009;15:1291 (the matrices from memory of their published table).
 */
const simulations: Readonly<Record<string, readonly Triple[]>> = {
  "full colour": [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

const xyz: readonly Triple[] = [
  [0.4124564, 0.3575761, 0.1804375],
  [0.2126729, 0.7151522, 0.072175],
  [0.0193339, 0.119192, 0.9503041],
];

const palettes: readonly (readonly [string, Palette])[] = [
  ["paper", paperPalette],
  ["dark", darkPalette],
];

describe.each(palettes)("the %s palette", (_, palette) => {
  const { failed, attached, groups } = palette;

  // WCAG 2.2, success criterion 1.4.3: text of this size needs 4.5:1.
  it.each(["paper", "leaf"] as const)("has text contrast of 4.5:1 on %s", (ground) => {
    for (const color of [palette.ink, palette.muted, failed, attached, ...groups]) {
      expect(contrast(color, palette[ground]), color).toBeGreaterThanOrEqual(4.5);
    }
  });

  it.each(Object.keys(simulations))("keeps group hues apart: %s", (sight) => {
    for (const [a, b] of pairs(groups)) {
      expect(distance(a, b, sight), `${a} ${b}`).toBeGreaterThan(14);
    }
  });

  it("keeps failed and attached apart from each other and from groups", () => {
    for (const group of [...groups, attached]) {
      expect(distance(failed, group, "full colour")).toBeGreaterThan(25);
    }
    for (const group of groups) {
      expect(distance(attached, group, "full colour")).toBeGreaterThan(25);
    }
  });
});

it("gives thirty groups thirty different looks", () => {
  const looks = Array.from({ length: 30 }, (_, i) => JSON.stringify(groupStyles(i)));
  expect(new Set(looks).size).toBe(30);
  expect(paperPalette.groups.length).toBe(darkPalette.groups.length);
  expect(new Set(groupDashes.map(String)).size).toBe(groupDashes.length);
});

it("computes the contrast of WCAG 2.2: black on white is 21:1", () => {
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 10);
});

/** Relative luminance and contrast ratio as defined in WCAG 2.2. */
function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

function luminance(color: string): number {
  const [red, green, blue] = linear(color);
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function linear(color: string): Triple {
  const channel = (at: number): number => {
    const value = Number.parseInt(color.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [channel(1), channel(3), channel(5)];
}

/** Distance in CIELAB (CIE 1976) between two colours as seen. */
function distance(a: string, b: string, sight: string): number {
  const [p, q] = [a, b].map((color) => lab(seen(linear(color), sight))) as [Triple, Triple];
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

function seen(color: Triple, sight: string): Triple {
  return apply(simulations[sight]!, color).map((v) => Math.min(1, Math.max(0, v))) as never;
}

function lab(color: Triple): Triple {
  // sRGB to XYZ under D65 (IEC 61966-2-1), then CIELAB.
  const [x, y, z] = apply(xyz, color);
  const f = (t: number): number => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116);
  const [fx, fy, fz] = [f(x / 0.95047), f(y), f(z / 1.08883)];
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

function apply(matrix: readonly Triple[], [r, g, b]: Triple): Triple {
  return matrix.map((row) => row[0] * r + row[1] * g + row[2] * b) as never;
}

function pairs(colors: readonly string[]): readonly (readonly [string, string])[] {
  return colors.flatMap((a, i) => colors.slice(i + 1).map((b) => [a, b] as const));
}
