/** What `--help` prints: for a department's data manager, who need not know how it works. */
const opening = `Holdfast works out a notebook of audit questions over a file of operations
for retinal detachment, and writes the report.

`;

const report = `  holdfast report NOTEBOOK CASES --into FOLDER

    NOTEBOOK   the questions: a text file such as notebooks/demo.md
    CASES      the operations: a CSV file or a workbook (.xlsx) with one row for each
               operation (or one row for each eye, with its time and its outcome)
    FOLDER     where to write; made if it is not there. Written are
                 report.html    the report, to read or to print
                 NAME.csv       the table of each answer
                 problems.csv   everything that was wrong in the file of cases
                 results.json   every number, unrounded, for other programs

    --dated 2026-03-31   put this day on the report, and take later days in the file for days
                         that have not come yet (otherwise no day is put, and today counts)
    --sheet NAME         of a workbook, read this sheet (otherwise the one whose headings are
                         known best)
    --corrections FILE   lay the corrections that were saved beside the notebook over the cases
    --later FILE         put a later export to the cases: operations in both become one row
    --follow-up FILE     put a file to them that says what became of operations that are known
    --pdf                print the report to report.pdf as well, by Chromium (/usr/bin/chromium, or
                         where the variable CHROMIUM says)
    --paper Letter       with --pdf, the size of the paper: A4 (if not said) or Letter
    --slides             write slides.pptx as well: an editable presentation (Office Open XML),
                         a slide or more for each finding, its method in the speaker's notes
    --zip                write everything.zip as well: all of it, the slides, and each chart as SVG
                         and as PNG
    --watch              make it again whenever the notebook or the cases change, until Ctrl-C
    --share              for a report that leaves the department: no count under the threshold (5
                         if not said), in eyes or in patients, is shown and none can be worked out
                         from others; no cases, lines or problems; people are numbered and days
                         given as quarters. Read the prose before you send it
    --threshold N        with --share, the smallest count that is shown (otherwise the notebook's
                         smallest_count, or 5)
    --quiet, -q          say nothing unless something is wrong

`;

const aggregates = `  holdfast aggregates NOTEBOOK CASES --into FILE

    counts of eyes for pooling with other departments, and no row of a patient: by technique, by
    risk, by both; with times of failures, and causes. No count under the threshold (5 if not
    said), and none that could be worked out from this file and the shared report of the same
    notebook together

    --eyes CELL          the cell that holds the eyes (otherwise the first one)
    --unit NAME          the department's name or code (otherwise that of the notebook)
    --by COLUMN          group by this column as well, such as macula; may be given several times
    --threshold N        the smallest count that is told (otherwise the notebook's
                         smallest_count, or 5)
    --schema             print the JSON schema of the file, and do nothing else

`;

const pooled = `  holdfast report NOTEBOOK FILE ... --aggregates --into FOLDER

    the report of a notebook that asks pooled questions (pooled_rate, pooled_curve ...) of
    departments, over one file of aggregates of each. --dated, --pdf, --paper, --slides, --zip and
    --quiet as above

`;

const compare = `  holdfast compare NOTEBOOK CASES OTHER_CASES --into FOLDER

    the answers over two files (of two periods, or before and after corrections) side by side, with
    what changed and why: rows corrected, new and gone by the id of the case. Written are
    comparison.html and comparison.json. --dated, --sheet (the same of both workbooks), --pdf,
    --paper and --quiet as above

    --earlier NOTEBOOK   work the first file out by this notebook, as it was then, and say which
                         definitions changed since

  holdfast compare NOTEBOOK CASES --period FROM..TO --period FROM..TO --into FOLDER

    the same of two periods of one file, such as 2024-01-01..2024-12-31: the notebook's setting of
    dates is set to each (of several the one called period, or say audit_year=FROM..TO)

`;

const check = `  holdfast check CASES

    reads the file alone and lists every problem in it: rows left out, values set aside, each
    with its line, what was found, what would be right and how to mend it

    --notebook NOTEBOOK  read it by the headings and values that this notebook knows
    --json               the same as JSON, for other programs
    --quiet, -q          say nothing; the exit code tells

`;

const words = `  holdfast words         the words that a notebook can use
  holdfast words NAME    one of them, with what it takes and an example
`;

const fields = `  holdfast fields        what a file of cases can hold, by the names of its columns
  holdfast fields NAME   one of them: what it means, other headings and ways of writing its codes
`;

const others = `  holdfast --help        this text; holdfast help report, or any other of these, that part of it
  holdfast --version

`;

const ending = `It ends with
    0   everything was worked out, or the file has no problem
    1   the report was written, but a cell of the notebook has no answer (it says which and why),
        or the PDF could not be printed; or the file was read, and has problems
    2   nothing was done: a file could not be read or written, or the command was not understood
    130 or 143   it was ended by Ctrl-C or by the system; no file is left half written. With
        --watch these end it with the code of the last report

The file of cases is only read, never changed, and nothing leaves this machine.
For audit and learning; not advice for a patient. Local protocols and the judgement of
licensed practitioners come first.
`;

/** All of it, in the order in which a department needs it. */
export const helpText =
  opening + report + aggregates + pooled + compare + check + words + fields + others + ending;

const parts: ReadonlyMap<string, string> = new Map([
  ["report", `${report}${pooled}`],
  ["aggregates", aggregates],
  ["compare", compare],
  ["check", check],
  ["words", `${words}\n`],
  ["fields", `${fields}\n`],
]);

/** What can be done, or undefined for what cannot; with what the exit codes mean. */
export function helpOf(act: string): string | undefined {
  const part = parts.get(act);
  return part === undefined ? undefined : `${part}${ending}`;
}
