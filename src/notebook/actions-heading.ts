/** The heading under which a meeting's actions stand. */
export const actionsHeading = "Actions agreed";
