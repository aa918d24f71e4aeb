import { columnNamed } from "../../../cases/table.ts";
import type { JudgedEyes } from "../judged-eyes.ts";

/** Eyes that a surgeon should look at again, by why. */
export interface EyesToReview {
  readonly key: string;
  readonly why: string;
  readonly eyes: readonly number[];
}

/**
 * Failures with no recorded cause; failures in eyes of low recorded risk; failures from a missed or a
 * new break; failures in eyes that are too recent to be counted; eyes whose outcome is not known. An
 * eye may stand under several.
 */
export function eyesToReview(judged: JudgedEyes): EyesToReview[] {
  const { record, known, unknown, tooRecent, hasFailed, window } = judged;
  const failed = known.filter(hasFailed);
  const stratum = columnNamed(record.table, "risk_stratum")?.values ?? [];
  const causes = (eye: number) => record.causes[eye] ?? [];
  const early = tooRecent.filter(hasFailed);
  const groups: EyesToReview[] = [
    {
      key: "no-cause",
      why: "failed, no cause recorded",
      eyes: failed.filter((eye) => causes(eye).length === 0),
    },
    {
      key: "low-risk",
      why: "failed, low recorded risk",
      eyes: failed.filter((eye) => stratum[eye] === "low"),
    },
    {
      key: "break",
      why: "failed from a break (missed or new)",
      eyes: failed.filter((eye) => causes(eye).some((cause) => /break/.test(cause))),
    },
    {
      key: "early",
      why: `failed already, less than ${window?.text ?? "the window"} ago`,
      eyes: early,
    },
    {
      key: "unknown",
      why: `outcome${window === undefined ? "" : ` at ${window.text}`} not known`,
      eyes: unknown,
    },
  ];
  return groups.filter(({ eyes }) => eyes.length > 0);
}
