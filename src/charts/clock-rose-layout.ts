import type { ClockRose, RoseGroup } from "./clock-rose.ts";
import type { RosePlace } from "./clock-wedges.ts";

const titleHeight = 30;
const headingHeight = 24;
const noteHeight = 38;
const gap = 12;
const abreastFrom = 640;
/** From the longest wedge to the texts of the hours. */
const ring = 46;

/** Where pairs of roses stand, a pair a group, group under group. */
export interface RoseRoom {
  readonly width: number;
  readonly height: number;
  readonly radius: number;
  /** Whether the two eyes stand beside each other. */
  readonly abreast: boolean;
  readonly headed: boolean;
  /** By group: the count that has the longest wedge. */
  readonly most: readonly number[];
}

/** The room that all the roses take at a width. */
export function roomOf({ groups }: ClockRose, width: number): RoseRoom {
  const abreast = width >= abreastFrom;
  const radius = Math.min(120, (abreast ? width / 2 : width) / 2 - 82);
  const headed = groups.some(({ label }) => label !== undefined);
  const room = { width, radius, abreast, headed };
  const height = groups.length * groupHeight(room) + noteHeight;
  return { ...room, height, most: mostOf(groups) };
}

/** The top of a group's block and the places of its roses, right eye first. */
export function placesOfRoses(
  room: RoseRoom,
  position: number,
): { readonly top: number; readonly places: readonly RosePlace[] } {
  const { width, radius, abreast, headed, most } = room;
  const top = position * groupHeight(room);
  const across = abreast ? width / 2 : width;
  const places = [0, 1].map((side) => ({
    x: (abreast ? side * across : 0) + across / 2,
    y:
      top +
      (headed ? headingHeight : 0) +
      (abreast ? 0 : side * (roseHeight(radius) + gap)) +
      titleHeight +
      radius +
      ring,
    radius,
    most: most[position] ?? 1,
  }));
  return { top, places };
}

function groupHeight({ radius, abreast, headed }: Omit<RoseRoom, "height" | "most">): number {
  const roses = abreast ? roseHeight(radius) : 2 * roseHeight(radius) + gap;
  return roses + (headed ? headingHeight + gap : 0);
}

function roseHeight(radius: number): number {
  return titleHeight + 2 * (radius + ring);
}

/** Areas are shares of the group's eyes; the largest share of any group has the longest wedge. */
function mostOf(groups: readonly RoseGroup[]): number[] {
  const totals = groups.map(({ eyes }) => eyes.reduce((sum, { total }) => sum + total, 0));
  const shares = groups.map(({ eyes }, position) => {
    const counts = eyes.flatMap(({ hours }) => hours.map((hour) => hour.eyes));
    return Math.max(0, ...counts) / Math.max(1, totals[position] ?? 0);
  });
  const largest = Math.max(0, ...shares);
  return totals.map((total) => (largest === 0 ? 1 : Math.max(1, total) * largest));
}
