import type { Chart } from "./chart.ts";
import type { ClockRose, RoseGroup, RoseHour, RoseOfSide } from "./clock-rose.ts";
import { placesOfRoses, type RoseRoom, roomOf } from "./clock-rose-layout.ts";
import { arcs, circleArc, type RosePlace, wedge } from "./clock-wedges.ts";
import { type Layer, layered, segments, texts } from "./layers.ts";
import { plainText } from "./plain-text.ts";

/**
 * A rose for each eye as the surgeon faces the patient, the right eye on the left: a wedge an hour,
 * its area the number of eyes with a break there, the failed ones among them inside in their
 * colour. Groups stand below each other, each with its pair of roses; an area is then the share of
 * its group, so that groups of different size compare by shape. Temporal and nasal are named; an
 * arc marks what counts as inferior.
 */
export function clockRoseChart(rose: ClockRose, { width }: { readonly width: number }): Chart {
  const room = roomOf(rose, width);
  const { height } = room;
  return {
    kind: "clock-rose",
    spec: layered({ width, height }, { left: 0, right: 0, top: 0, bottom: 0 }, [
      ...rose.groups.flatMap((group, position) => groupLayers(rose, { group, position, room })),
      texts(
        noteOf(rose).map((text, line) => ({ x: 0, y: height - 22 + 16 * line, text })),
        ["quiet", "small"],
      ),
    ]),
    description: describe(rose),
    width,
    height,
    columns: [
      ...(isSplit(rose) ? [{ field: "group", label: "Group" }] : []),
      { field: "eye", label: "Eye" },
      { field: "hour", label: "Clock hour" },
      { field: "eyes", label: "Eyes with a break" },
      { field: "failed", label: plainText(rose.counted) },
    ],
    data: rose.groups.flatMap(({ label, eyes: sides }) =>
      sides.flatMap(({ side, hours }) =>
        hours.map(({ hour, eyes, failed }) => ({
          ...(label === undefined ? {} : { group: plainText(label) }),
          eye: side,
          hour,
          eyes,
          failed,
        })),
      ),
    ),
  };
}

function isSplit({ groups }: ClockRose): boolean {
  return groups.some(({ label }) => label !== undefined);
}

/** Two lines, short enough for a telephone. */
function noteOf(rose: ClockRose): string[] {
  const counts = `eyes with a break (${plainText(rose.counted)})`;
  return [
    isSplit(rose) ? `${counts}; areas: share of the group` : counts,
    `arc: inferior, ${rose.inferior.name} o'clock`,
  ];
}

function groupLayers(
  rose: ClockRose,
  at: { readonly group: RoseGroup; readonly position: number; readonly room: RoseRoom },
): readonly Layer[] {
  const { label, eyes } = at.group;
  const { top, places } = placesOfRoses(at.room, at.position);
  const heading = label === undefined ? [] : [{ x: 0, y: top + 16, text: plainText(label) }];
  return [
    texts(heading, ["plain", "strong"]),
    ...eyes.flatMap((side, position) => roseLayers(rose, side, places[position]!)),
  ];
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
      [{ x: x - reach, y: y - 28, text: temporalLeft ? "temporal" : "nasal" }],
      ["quiet"],
      "center",
    ),
    texts(
      [{ x: x + reach, y: y - 28, text: temporalLeft ? "nasal" : "temporal" }],
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

function describe(rose: ClockRose): string {
  const word = plainText(rose.counted);
  const told = rose.groups.flatMap(({ label, eyes }) =>
    eyes.map(({ side, total, hours }) => {
      const parts = hours
        .filter((hour) => hour.eyes > 0)
        .map((hour) => `${hour.hour} o'clock ${hour.eyes} (${hour.failed} ${word})`);
      const list = parts.length === 0 ? "none" : parts.join(", ");
      const who = label === undefined ? "" : `${plainText(label)}, `;
      return `${who}${side} eyes, ${total} with a break recorded: ${list}.`;
    }),
  );
  return `Breaks by clock hour. ${told.join(" ")} Inferior is ${rose.inferior.name} o'clock.`;
}
