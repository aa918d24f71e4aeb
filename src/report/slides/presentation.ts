import PptxGenJS from "pptxgenjs";

/* The one door to the writer of presentations: the parts of it that are used, by their names. */

export type Presentation = PptxGenJS;
export type PresentationSlide = PptxGenJS.Slide;
export type SlideMaster = PptxGenJS.SlideMasterProps;
export type TextPart = PptxGenJS.TextProps;
export type TextLook = PptxGenJS.TextPropsOptions;
export type TableCell = PptxGenJS.TableCell;
export type TableCellLook = PptxGenJS.TableCellProps;
/** In inches. */
export type Box = PptxGenJS.PositionProps;

export function newPresentation(): Presentation {
  return new PptxGenJS();
}
