import type { DrawPng } from "../files/chart-picture.ts";
import type { ReportInput } from "../report-input.ts";
import { closingSlides } from "./closing-slides.ts";
import { deckOf } from "./deck.ts";
import { findingSlide } from "./finding-slide.ts";
import { placeSlide } from "./place-slide.ts";
import type { PlacedSlide } from "./slide.ts";
import { titleSlide } from "./title-slide.ts";

/**
 * The report as an editable presentation (Office Open XML): title and cautions, the flow of cases,
 * a slide or more for each finding, then how minuted figures stand, definitions, actions, methods
 * and cells without an answer. Of a shared report it shows no more than that report does.
 */
export async function slidesOf(input: ReportInput, draw: DrawPng): Promise<Uint8Array> {
  const findings = input.cells.flatMap((cell) => findingSlide(cell, draw) ?? []);
  const slides = [
    titleSlide(input),
    ...findings.filter(({ isFlow }) => isFlow).map(({ slide }) => slide),
    ...findings.filter(({ isFlow }) => !isFlow).map(({ slide }) => slide),
    ...closingSlides(input),
  ];
  const placed: PlacedSlide[] = [];
  for (const slide of slides) placed.push(...(await placeSlide(slide)));
  return deckOf(input.title, placed);
}
