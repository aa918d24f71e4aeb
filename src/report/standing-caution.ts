/** What every report says of itself. */
export const standingCaution =
  "For audit and learning; not advice for a patient. Local protocols and the judgement of " +
  "licensed practitioners come first. Small numbers are uncertain: read the intervals. A " +
  "comparison of people is not a measure of competence by itself.";
