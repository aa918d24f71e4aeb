import { primary } from "../../outcomes/cases-of.ts";
import { eyesOf, type Row } from "../groups-of-eyes.ts";

/**
 * Eyes of one surgeon in order, one every `apart` days from day 1000 on: `1` failed on day 40, `0`
 * was seen attached for 400 days, `?` was lost after 50. Others come after them.
 */
export function seriesOfEyes(
  outcomes: readonly (0 | 1 | "?")[],
  more: {
    readonly surgeon?: string;
    readonly apart?: number;
    readonly of?: (i: number) => Row;
    readonly others?: readonly Row[];
  } = {},
) {
  const { surgeon = "A", apart = 7, of = () => ({}), others = [] } = more;
  const rows = outcomes.map((outcome, i): Row => {
    const day = 1000 + apart * i;
    const last = outcome === "?" ? 50 : 400;
    const failed = outcome === 1 ? { redetachment_date: day + 40 } : {};
    return primary({
      patient: `${surgeon}${i}`,
      surgeon,
      operation_date: day,
      status_last_seen: "attached",
      last_seen_date: day + last,
      ...failed,
      ...of(i),
    });
  });
  return eyesOf([...rows, ...others]);
}

/** Eyes of other surgeons: so many failed, so many attached. */
export function othersOf(surgeon: string, failed: number, attached: number): Row[] {
  return Array.from({ length: failed + attached }, (_, i) =>
    primary({
      patient: `${surgeon}${i}`,
      surgeon,
      operation_date: 1000 + i,
      status_last_seen: "attached",
      last_seen_date: 1400 + i,
      ...(i < failed ? { redetachment_date: 1040 + i } : {}),
    }),
  );
}
