import type { Chart } from "./chart.ts";
import type { ClockRose, RoseHour, RoseOfSide } from "./clock-rose.ts";
import { arcs, circleArc, type RosePlace, wedge } from "./clock-wedges.ts";
import { type Layer, layered, segments, texts } from "./layers.ts";
import { plainText } from "./plain-text.ts";

const titleHeight = 30;
const abreastFrom = 640;

/**
 * A rose for each eye as the surgeon faces the patient, the right eye on the left: a wedge an hour,
 * its area the number of eyes with a break there, the failed ones among them inside in their
 * colour. Both roses share one scale; temporal and nasal are named; an arc marks what counts as
 * inferior.
 */
export function clockRoseChart(rose: ClockRose, { width }: { readonly width: number }): Chart {
  const abreast = width >= abreastFrom;
  const room = abreast ? width / 2 : width;
  const radius = Math.min(120, room / 2 - 82);
  const block = titleHeight + 2 * (radius + 46);
  const places = rose.eyes.map((_, position) => ({
    x: (abreast ? position * room : 0) + room / 2,
    y: (abreast ? 0 : position * (block + 12)) + titleHeight + radius + 46,
    radius,
    most: Math.max(1, ...rose.eyes.flatMap(({ hours }) => hours.map(({ eyes }) => eyes))),
  }));
  const height = (abreast ? block : 2 * block + 12) + 22;
  return {
    kind: "clock-rose",
    spec: layered({ width, height }, { left: 0, right: 0, top: 0, bottom: 0 }, [
      ...rose.eyes.flatMap((side, position) => roseLayers(rose, side, places[position]!)),
      texts([{ x: 0, y: height - 6, text: noteOf(rose) }], ["quiet", "small"]),
    ]),
    description: describe(rose),
    width,
    height,
    columns: [
      { field: "eye", label: "Eye" },
      { field: "hour", label: "Clock hour" },
      { field: "eyes", label: "Eyes with a break" },
      { field: "failed", label: plainText(rose.counted) },
    ],
    data: rose.eyes.flatMap(({ side, hours }) =>
      hours.map(({ hour, eyes, failed }) => ({ eye: side, hour, eyes, failed })),
    ),
  };
}

function noteOf({ counted, inferior }: ClockRose): string {
  return `eyes with a break (${plainText(counted)}); arc: inferior, ${inferior.name} o'clock`;
}

function roseLayers(rose: ClockRose, side: RoseOfSide, place: RosePlace): readonly Layer[] {
  const wedges = (count: (hour: RoseHour) => number, pick: "pick" | "failedPick") =>
    side.hours
      .filter((hour) => count(hour) > 0)
      .map((hour) => wedge(place, { hour: hour.hour, count: count(hour), pick: hour[pick] }));
  return [
    ...frame(side, place),
    arcs(
      place,
      wedges(({ eyes }) => eyes, "pick"),
      ["box"],
    ),
    arcs(
      place,
      wedges(({ failed }) => failed, "failedPick"),
      ["failed"],
    ),
    arcs(place, [circleArc(place, rose.inferior)], ["axis"]),
    ...hourTexts(side, place),
  ];
}

/** Title, the cross of the quadrants, and which side is temporal. */
function frame({ side, total }: RoseOfSide, { x, y, radius }: RosePlace): readonly Layer[] {
  const temporalLeft = side === "right";
  const reach = radius + 48;
  const title = `${side} ${total === 1 ? "eye" : "eyes"} (${total})`;
  return [
    texts([{ x, y: y - radius - 58, text: title }], ["plain", "strong"], "center"),
    segments(
      [
        { x: x - radius, y, x2: x + radius, y2: y },
        { x, y: y - radius, x2: x, y2: y + radius },
      ],
      ["hairline"],
    ),
    texts(
      [{ x: x - reach, y: y - 34, text: temporalLeft ? "temporal" : "nasal" }],
      ["quiet"],
      "center",
    ),
    texts(
      [{ x: x + reach, y: y - 34, text: temporalLeft ? "nasal" : "temporal" }],
      ["quiet"],
      "center",
    ),
  ];
}

/** The hour, and under it "34 (5)": eyes with a break there and the failed among them. */
function hourTexts({ hours }: RoseOfSide, { x, y, radius }: RosePlace): readonly Layer[] {
  const at = (hour: number, out: number, down: number) => {
    const angle = (hour / 12) * 2 * Math.PI;
    return {
      x: x + Math.sin(angle) * (radius + out),
      y: y - Math.cos(angle) * (radius + out) + down,
    };
  };
  return [
    texts(
      hours.map(({ hour }) => ({ ...at(hour, 28, -2), text: String(hour) })),
      ["quiet", "small"],
      "center",
    ),
    texts(
      hours.map(({ hour, eyes, failed, pick }) => ({
        ...at(hour, 28, 12),
        text: countsText(eyes, failed),
        pick,
      })),
      ["plain", "small"],
      "center",
    ),
  ];
}

function countsText(eyes: number, failed: number): string {
  return eyes === 0 ? "–" : `${eyes} (${failed})`;
}

function describe({ eyes, counted, inferior }: ClockRose): string {
  const word = plainText(counted);
  const told = eyes.map(({ side, total, hours }) => {
    const parts = hours
      .filter((hour) => hour.eyes > 0)
      .map((hour) => `${hour.hour} o'clock ${hour.eyes} (${hour.failed} ${word})`);
    const list = parts.length === 0 ? "none" : parts.join(", ");
    return `${side} eyes, ${total} with a break recorded: ${list}.`;
  });
  const text = told.join(" ");
  return `Breaks by clock hour. ${text} Inferior is ${inferior.name} o'clock.`;
}
