import { paperPalette } from "../charts/palette.ts";

const { paper, ink, muted, hairline, failed, attached } = paperPalette;

/** The look of the report on a screen and on paper: A4 and Letter, nothing split in two. */
export const reportStyle = `
:root { color-scheme: light; }
body { margin: 0 auto; max-width: 58rem; padding: 2.5rem 1.5rem 4rem; background: ${paper};
  color: ${ink}; font: 15px/1.45 "Source Sans 3 Variable", "Source Sans 3", "Segoe UI",
  "Helvetica Neue", Arial, sans-serif; font-variant-numeric: tabular-nums lining-nums; }
h1, h2, h3, .sentence { font-family: "Source Serif 4 Variable", "Source Serif 4", Georgia,
  "Times New Roman", serif; font-weight: 600; }
h1 { font-size: 1.9rem; line-height: 1.2; margin: 0; }
h2 { font-size: 1.35rem; margin: 2.4rem 0 .5rem; padding-top: .7rem; border-top: 1px solid ${ink}; }
h3 { font-size: 1.1rem; margin: 1.6rem 0 .4rem; }
p { margin: .5rem 0; max-width: 42rem; }
.used, .name, .asks, .facts dt, .facts span { color: ${muted}; }
.facts { display: grid; grid-template-columns: max-content 1fr; gap: .2rem 1.2rem; margin: 1.2rem 0; }
.facts dd { margin: 0; overflow-wrap: anywhere; }
.facts span { display: block; font-size: .8em; }
.standing { border-left: 3px solid ${ink}; padding-left: .8rem; margin: 1.2rem 0; }
.finding { margin: 1.4rem 0 2rem; }
.asks { margin: 0; font-size: .9rem; }
.asks .name { font-family: ui-monospace, Consolas, monospace; font-size: .85em; margin-left: .6em; }
.sentence { font-size: 1.12rem; font-weight: 400; line-height: 1.5; }
.sentence strong { font-weight: 600; }
.sentence .failed { color: ${failed}; }
.sentence .attached { color: ${attached}; }
figure { margin: 1rem 0; overflow-x: auto; }
figure svg { max-width: 100%; height: auto; }
table { border-collapse: collapse; width: 100%; font-size: .9rem; margin: .8rem 0; }
th, td { text-align: right; padding: .3rem .5rem; border-bottom: 1px solid ${hairline};
  vertical-align: baseline; font-weight: 400; }
thead th { color: ${muted}; border-bottom-color: ${ink}; vertical-align: bottom; }
.text { text-align: left; }
th:first-child, td:first-child { text-align: left; padding-left: 0; }
td.interval, td.estimate { white-space: nowrap; }
table:has(thead th:nth-child(11)) :is(th, td) { padding-inline: .15rem; white-space: normal; }
td.mark { padding-block: 0; vertical-align: middle; }
.cautions { list-style: none; padding: 0; margin: .6rem 0; font-size: .92rem; }
.cautions li { margin: .2rem 0; padding-left: 1.1rem; text-indent: -1.1rem; }
.cautions li::before { content: "!"; font-weight: 700; display: inline-block; width: 1.1rem;
  text-indent: 0; }
.used { font-size: .85rem; }
.minuted { list-style: none; padding: 0; margin: .6rem 0; font-size: .92rem; color: ${muted}; }
.minuted .moved { color: ${ink}; font-weight: 600; }
.against .moved, .against .cannot-be-checked { font-weight: 600; }
.against :is(.moved, .cannot-be-checked) :is(th, td) { font-weight: inherit; }
.worth { margin: .2rem 0; }
.worth .name { color: ${muted}; margin-right: .5em; }
.written { background: #fffefb; border: 1px solid ${hairline}; padding: .5rem .8rem;
  white-space: pre-wrap; font-size: .85rem; }
.problems, .fields { font-size: .85rem; overflow-wrap: anywhere; }
.problems td, .problems th, .fields td, .fields th { vertical-align: top; }
.fault { border: 1px solid ${ink}; padding: .4rem .9rem; margin: 1rem 0; }
.fault pre, .workings code { white-space: pre-wrap; }
.provenance { font-size: .85rem; overflow-wrap: anywhere; }
.workings th { vertical-align: top; white-space: nowrap; font-family: ui-monospace, Consolas, monospace; }
.contents ol { columns: 2; column-gap: 2rem; padding-left: 1.4rem; margin: .4rem 0; }
.contents li { break-inside: avoid; }
.contents a, .actions a, .against a { color: inherit; text-decoration-color: ${hairline}; }
.methods dl { font-size: .92rem; }
.methods dt { font-weight: 600; margin-top: .5rem; }
.methods dd { margin: 0; }
.source { color: ${muted}; }
@media screen and (max-width: 58rem) {
  table { display: block; overflow-x: auto; }
}
@media screen and (max-width: 38rem) {
  body { padding: 1.2rem 1rem 3rem; }
}
@page { margin: 18mm 16mm 20mm;
  @bottom-center { content: counter(page) " of " counter(pages); font-size: 8.5pt; color: ${muted};
    font-family: "Source Sans 3 Variable", Arial, sans-serif; } }
@media print {
  body { background: none; max-width: none; padding: 0; font-size: 10.5pt; }
  a { text-decoration: none; }
  h1, h2, h3, .asks, thead { break-after: avoid; break-inside: avoid; }
  h2 { margin-top: 1.6rem; }
  .methods dt, h2 + p, h3 + p, p:has(+ .finding), ul:has(+ .finding) { break-after: avoid;
    break-inside: avoid; }
  figure, tr, .sentence, .cautions, .minuted, .fault, .standing, .methods dd, main > ol, main > ul {
    break-inside: avoid; }
  /* A table of fewer than fifteen rows stays whole, on the next page if need be; of a longer one no
     row stands alone. A finding is broken between its parts, so that no page is left half empty. */
  table:not(:has(tbody tr:nth-child(15))) { break-inside: avoid; }
  tbody tr:nth-child(-n+2) { break-after: avoid; }
  tbody tr:nth-last-child(-n+2) { break-before: avoid; }
  .finding { margin: 1rem 0 1.4rem; }
  .minuted, .cautions, .used { font-size: 9pt; margin: .4rem 0; }
  .minuted, .used { break-before: avoid; }
  .sentence, p { orphans: 3; widows: 3; }
  .sentence { font-size: 11pt; line-height: 1.35; }
  figure { overflow: visible; margin: .6rem 0; }
  figure svg { max-height: 145mm; }
  table { font-size: 8.5pt; margin: .5rem 0; }
  th, td { padding-block: .15rem; overflow-wrap: break-word; }
  table:not(:has(thead th:nth-child(11))) :is(th, td):not(:first-child) { padding-inline: .3rem; }
  .provenance td { overflow-wrap: anywhere; }
  /* Room for names of groups where there is some; smaller letters where there is none. */
  table:not(:has(thead th:nth-child(8))) tbody th { min-width: 9.5em; }
  table:not(:has(thead th:nth-child(11))) tbody th + td.text { min-width: 8em; }
  table:has(thead th:nth-child(11)) { font-size: 7.5pt; }
  thead { display: table-header-group; }
  /* The chart above the table has drawn these intervals larger. */
  figure ~ table .mark { display: none; }
}
`;
