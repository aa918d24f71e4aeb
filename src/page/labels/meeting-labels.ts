/** The words of the meeting. */
export const meetingLabels = {
  meetingName: "One finding a page",
  next: "Next",
  back: "Back",
  pageOf: (page: number, pages: number) => `${page} of ${pages}`,
  nothingToMeet: "No cell of the sheet has an answer yet.",
  pages: "Pages",
  pagesName: "Pages of the meeting",
  actionsPage: "Actions agreed",
  notes: "Notes",
  notesName: "Notes for whoever presents",
  noNotes: "No prose stands above this cell on the sheet.",
  noNotesOfActions: "Whoever takes the minutes types here what is agreed.",
  codes: "Codes of people",
  hideCodesTitle: "Show or hide the codes of surgeons and others",
  person: (number: number) => `person ${number}`,
  fullScreen: "Full screen",
  leaveFullScreen: "Leave full screen",
  blackPage: "Black page",
  blackPageTitle: "Nothing to look at but each other (B or the full stop); any key comes back",
  blackPageName: "A black page. Any key comes back.",
  keepTold: "Keep what we were told",
  keepToldTitle: (text: string) => `Keep “${text}” in the notebook with today's day`,
  inFull: "In full",
  cautionsFolded: (count: number) => `${count} ${count === 1 ? "caution" : "cautions"}`,
  movedSince: (date: string, text: string) => `Moved since ${date}, when it was ${text}`,
  noActions: "Nothing was agreed yet.",
  agree: "Agree",
  actionName: "What is to be done",
  actionBy: "By whom (role)",
  actionUntil: "By when",
  actionText: ({ what, role, until }: { what: string; role: string; until: string }) =>
    [what, role, until === "" ? "" : `by ${until}`].filter((part) => part !== "").join("; "),
  changeAction: "Change",
  changeActionName: (text: string) => `Change the action “${text}”`,
  removeAction: "Remove",
  removeActionName: (text: string) => `Remove the action “${text}”`,
  actionAs: "The action as it is to read",
  keepChange: "Keep the change",
  leaveAction: "Leave it as it was",
  clockName: "Time on this page, and since the meeting was opened",
  clockText: ({
    page,
    all,
    planned,
  }: {
    page: string;
    all: string;
    planned: number | undefined;
  }) =>
    planned === undefined
      ? `${page} here · ${all} in all`
      : `${page} here, ${planned}:00 planned · ${all} in all`,
  actionsKept: "They are kept in the notebook under “Actions agreed”.",
} as const;
