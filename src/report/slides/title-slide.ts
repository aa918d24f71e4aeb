import type { ReportInput } from "../report-input.ts";
import { standingCaution } from "../standing-caution.ts";
import { titleFacts } from "../title-facts.ts";
import type { Slide } from "./slide.ts";

/** Whose it is, of when, who made it for whom and over which cases; with the standing cautions. */
export function titleSlide(input: ReportInput): Slide {
  const facts = titleFacts(input);
  return {
    title: [{ text: input.title }],
    body: facts.map(({ term, text }) => `${term}: ${text}`),
    foot: [standingCaution],
    notes: [
      input.title,
      ...facts.map(({ term, text, sha256 }) =>
        sha256 === undefined ? `${term}: ${text}` : `${term}: ${text}, SHA-256 ${sha256}`,
      ),
      standingCaution,
    ].join("\n"),
  };
}
