import { paperPalette } from "../charts/palette.ts";

const { paper, ink, muted, hairline, failed, attached } = paperPalette;

/** The look of the report on a screen and on paper: A4 and Letter, nothing split in two. */
export const reportStyle = `
:root { color-scheme: light; }
body { margin: 0 auto; max-width: 46rem; padding: 2.5rem 1.5rem 4rem; background: ${paper};
  color: ${ink}; font: 15px/1.45 "Source Sans 3 Variable", "Source Sans 3", "Segoe UI",
  "Helvetica Neue", Arial, sans-serif; font-variant-numeric: tabular-nums lining-nums; }
h1, h2, h3, .sentence { font-family: "Source Serif 4 Variable", "Source Serif 4", Georgia,
  "Times New Roman", serif; font-weight: 600; }
h1 { font-size: 1.9rem; line-height: 1.2; margin: 0; }
h2 { font-size: 1.35rem; margin: 2.4rem 0 .5rem; padding-top: .7rem; border-top: 1px solid ${ink}; }
h3 { font-size: 1.1rem; margin: 1.6rem 0 .4rem; }
p { margin: .5rem 0; max-width: 42rem; }
.facts, .used, .name, .asks { color: ${muted}; }
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
th:first-child, .text { text-align: left; padding-left: 0; }
td.text + td.text, th.text + th.text { padding-left: .5rem; }
td.interval, td.estimate { white-space: nowrap; }
td.mark { padding-block: 0; vertical-align: middle; }
.cautions { list-style: none; padding: 0; margin: .6rem 0; font-size: .92rem; }
.cautions li { margin: .2rem 0; padding-left: 1.1rem; text-indent: -1.1rem; }
.cautions li::before { content: "!"; font-weight: 700; display: inline-block; width: 1.1rem;
  text-indent: 0; }
.used { font-size: .85rem; }
.minuted { list-style: none; padding: 0; margin: .6rem 0; font-size: .92rem; color: ${muted}; }
.minuted .moved { color: ${ink}; font-weight: 600; }
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
.contents a, .actions a { color: inherit; text-decoration-color: ${hairline}; }
.methods dl { font-size: .92rem; }
.methods dt { font-weight: 600; margin-top: .5rem; }
.methods dd { margin: 0; }
.source { color: ${muted}; }
@media (max-width: 600px) {
  body { padding: 1.2rem 1rem 3rem; }
  table { display: block; overflow-x: auto; }
}
@page { margin: 18mm 16mm 20mm;
  @bottom-center { content: counter(page) " of " counter(pages); font-size: 8.5pt; color: ${muted};
    font-family: "Source Sans 3 Variable", Arial, sans-serif; } }
@media print {
  body { background: none; max-width: none; padding: 0; font-size: 10.5pt; }
  h1, h2, h3, .asks, .sentence, thead { break-after: avoid; break-inside: avoid; }
  figure, tr, .cautions li, .fault, .standing, .methods dd { break-inside: avoid; }
  .methods dt, h2 + p, h3 + p, p:has(+ .finding), ul:has(+ .finding) { break-after: avoid; }
  .used { break-before: avoid; }
  figure { overflow: visible; }
  figure svg { max-height: 150mm; }
  .sentence { font-size: 11.5pt; line-height: 1.4; }
  .sentence, p { orphans: 3; widows: 3; }
  .cautions, .minuted, .used { font-size: 9pt; }
  table { font-size: 8.5pt; }
  th, td { padding-inline: .25rem; overflow-wrap: break-word; }
  td.interval, td.estimate { white-space: normal; }
  a { text-decoration: none; }
  thead { display: table-header-group; }
  table { font-size: 8.5pt; }
  th, td { padding: .2rem .3rem; }
  td.estimate, td.interval { white-space: normal; }
}
`;
