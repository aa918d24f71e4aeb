import { countText } from "./locale.ts";

const counted = (count: number, one: string, many: string) =>
  `${countText(count)} ${count === 1 ? one : many}`;

/** The words of departments' aggregates. */
export const departmentsLabels = {
  departments: "Departments",
  departmentsName: "Departments together",
  departmentsMeaning:
    "A department can hand over counts of its eyes, and no row of a patient. A notebook that asks " +
    "of departments puts the counts of several together. Nothing leaves this machine.",
  inventedDepartments: "Invented departments. Drop your own (.json).",
  noDepartments: "no departments yet",
  noDepartmentsYet:
    "no aggregates of departments are open: this notebook asks of them, and not of cases",
  restsOnBoth:
    "this notebook asks both of cases and of departments' aggregates, and a report rests on one " +
    "of them: keep them in two notebooks",
  pooledReport:
    "The departments withheld small counts already: no small count and no patient is in it. It " +
    "names the departments.",

  openDepartments: "Those that are open",
  openDepartmentsList: "Departments that are open",
  noneOpen: "None. Open the files that departments sent: JSON, one of each department.",
  openAggregates: "Open aggregates",
  agreed: ({ failure, window, oil, undecided }: Agreed) =>
    `All count as a failure: ${failure}, within ${window}. Eyes with oil: ${oil}. ` +
    `Undecided eyes: ${undecided}.`,
  eyesTold: (eyes: number | undefined) =>
    eyes === undefined ? "number of eyes withheld" : counted(eyes, "eye", "eyes"),
  noPeriod: "no period given",
  fromFileNamed: (file: string) => `from ${file}`,
  groupedBy: (columns: readonly string[]) =>
    columns.length === 0
      ? "not grouped"
      : `grouped by ${columns.map((column) => column.replaceAll("_", " ")).join(", ")}`,
  suppressed: ({ smallestCount, counts, timed }: Told) => {
    const times =
      timed.withheld === 0
        ? "no times withheld"
        : `times of ${timed.withheld} of ${counted(timed.all, "group", "groups")} withheld`;
    return (
      `No count from 1 to ${smallestCount - 1}: ${counts.withheld} of ` +
      `${counted(counts.all, "count", "counts")} withheld, ${times}`
    );
  },
  removeDepartment: "Remove",
  removeThis: (unit: string) => `Remove ${unit}`,
  departmentsRefused: (someOpened: boolean) =>
    someOpened
      ? "Not all of the files were opened; the others are, beside those that were open."
      : "Nothing was opened; the departments that were open still are.",
  departmentsUnasked:
    "The aggregates are open, but this notebook asks of cases and not of departments. " +
    "Among the notebooks that come with the page there is one that does.",
  casesUnasked: (file: string) =>
    `${file} is open, but this notebook asks of departments' aggregates and not of cases. ` +
    "Cases and aggregates are not put together.",

  handOver: "Hand over your own",
  handOverMeaning:
    "Counts of the eyes that a cell of this notebook follows: by technique, by risk, by both; with " +
    "times of failures, and causes. Small counts are withheld, and what would tell them, from " +
    "this file and the report to share of the same notebook together.",
  noEyesToHandOver:
    "No cell of this notebook follows eyes of your own. Open one that does, with your cases: " +
    'eyes = index_eyes(cases, failure: "redetachment", within: 6 months), as the departments agreed.',
  eyesToHandOver: "Eyes of the cell",
  unitToHandOver: "Name or code of the department",
  unitLeftOut: "a department",
  smallestTold: "Smallest count that is told",
  groupAlsoBy: "Group by these as well",
  saveAggregates: "Save the aggregates",
  aggregatesSaved: (name: string) =>
    `Saved as ${name}. Read it before you send it: it is plain text.`,
  readAggregates: "What is in the file",
  aggregatesNotSaved: "The aggregates were not saved.",
  close: "Close",
} as const;

interface Agreed {
  readonly failure: string;
  readonly window: string;
  readonly oil: string;
  readonly undecided: string;
}

interface Told {
  readonly smallestCount: number;
  readonly counts: { readonly all: number; readonly withheld: number };
  readonly timed: { readonly all: number; readonly withheld: number };
}
