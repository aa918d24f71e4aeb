/** The words of opening, keeping and the first minute. */
export const bookLabels = {
  waysOn: "Three ways on",
  waysOnPutAway: "Put this away",
  ownCases: "Open my cases",
  ownCasesMeaning:
    "A CSV of operations, one row each. The sheet below follows; nothing leaves this machine.",
  aQuestion: "Start from a question",
  aQuestionMeaning: "Choose what you would like to know; its cell is added to this sheet.",
  lookAround: "Show me around",
  lookAroundMeaning: "A notebook of first steps, with the invented cases.",
  notebooks: "Notebooks",
  notebooksName: "Open a notebook",
  fromFile: "From a file",
  shippedMeaning: "These come with the page. Opening one can be undone.",

  kept: "Kept on this device",
  keptMeaning: "The notebook, and no cases, is kept in this browser after every change.",
  notKept: "Not kept on this device",
  notKeptMeaning: "This browser refuses to keep anything: save the notebook before you leave.",
  openedAsLeft: (name: string) =>
    `${name} was opened as you left it; it was kept on this device, without any cases.`,
  openedWithDraft: (cell: string) => `What you were writing in ${cell} is in its working again.`,
  saveReport: "Save the report",
  saveReportName: "Save the report",
  reportAs: "As",
  reportForm: {
    page: "One page",
    slides: "Slides",
    everything: "Everything",
  },
  reportFormMeaning: {
    page: "to read in any browser and to print (.html); it needs nothing beside it",
    slides: "to be changed and shown, with the charts as drawings (.pptx)",
    everything: "page, slides, charts, tables and results for other programs, in one file (.zip)",
  },
  reportFor: "For",
  forDepartment: "The department",
  forDepartmentMeaning: "with all counts, the codes of people and the file it comes from",
  toShare: "Readers outside it",
  toShareMeaning:
    "without small counts and what tells them, people's codes, single eyes, days and the file",
  sharedTwice: "Two shared reports of the same cases can tell together what neither tells alone.",
  smallestCount: "Smallest count that is shown",
  nothingWithheld: "Nothing is withheld.",
  withheldIn: (cells: number) =>
    cells === 1 ? "Something is withheld in 1 cell" : `Something is withheld in ${cells} cells`,
  saveIt: "Save",
  makingReport: "Making the report",
  savedAs: (name: string) => `Saved as ${name}`,
  notSaved: (message: string) => `The report was not saved: ${message}.`,

  beginAgain: "Begin again",
  beginAgainTitle: "Forget what is kept on this device and open the first notebook",
} as const;
