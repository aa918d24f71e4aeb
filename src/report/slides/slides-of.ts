import type { DrawPng } from "../files/chart-picture.ts";
import type { ReportInput } from "../report-input.ts";
import { closingSlides } from "./closing-slides.ts";
import { deckOf } from "./deck.ts";
import { findingSlides } from "./finding-slides.ts";
import type { Slide } from "./slide.ts";
import { titleSlide } from "./title-slide.ts";

/**
 * The report as an editable presentation (Office Open XML): title and cautions, the flow of cases,
 * a slide or more for each finding, then definitions, actions and cells without an answer. Of a
 * shared report it shows no more than that report does.
 */
export async function slidesOf(input: ReportInput, draw: DrawPng): Promise<Uint8Array> {
  const findings: { readonly isFlow: boolean; readonly slides: readonly Slide[] }[] = [];
  for (const cell of input.cells) findings.push(await findingSlides(cell, draw));
  const flowFirst = [
    ...findings.filter(({ isFlow }) => isFlow),
    ...findings.filter(({ isFlow }) => !isFlow),
  ];
  return deckOf(input.title, [
    titleSlide(input),
    ...flowFirst.flatMap(({ slides }) => slides),
    ...closingSlides(input),
  ]);
}
