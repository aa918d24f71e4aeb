import { type Answer, sentenceText } from "../questions/answer.ts";

/** A method in plain words, with where it was published. */
export interface Method {
  readonly name: string;
  /** What it does, for a reader who is no statistician. */
  readonly does: string;
  readonly source: string;
}

/** The methods that the answers name, in words or in their tables; those that were not used are left out. */
export function methodsUsed(answers: readonly Answer[]): readonly Method[] {
  const texts = answers.map(textOf).join("\n");
  return known.flatMap(({ names, ...method }) => (names.test(texts) ? [method] : []));
}

function textOf({ question, sentence, table, cautions }: Answer): string {
  return [
    question,
    sentenceText(sentence),
    ...table.columns.map(({ label }) => label),
    ...table.rows.flatMap((row) => row.map(({ text }) => text)),
    ...cautions.map(({ text }) => text),
  ].join("\n");
}

/**
 * Sources by their authors, the journal or the book, and the year: enough to find them by. Looked up
 * were those of Kaplan and Meier, Wilson, Newcombe (1998, 2006), Rao and Scott, Gray, Grambsch and
 * Therneau (year), Clark, Spiegelhalter, and Steiner; the others are from memory.
 */
const known: readonly (Method & { readonly names: RegExp })[] = [
  {
    names: /Kaplan–Meier|by the curve|attachment_curve|follow_up/,
    name: "Kaplan–Meier curve",
    does: "The share still attached as time goes by. An eye counts as long as it was seen, so that eyes lost early are neither failures nor successes.",
    source:
      "Kaplan and Meier, J Am Stat Assoc, 1958; standard error: Greenwood, Reports on Public Health and Medical Subjects, 1926.",
  },
  {
    names: /log-log/,
    name: "Log-log interval",
    does: "An interval for the curve that never leaves 0 to 100%.",
    source: "Kalbfleisch and Prentice, The Statistical Analysis of Failure Time Data, 1980.",
  },
  {
    names: /Wilson/,
    name: "Wilson interval",
    does: "An interval for a share that holds with few eyes and with none or all failed.",
    source: "Wilson, J Am Stat Assoc, 1927; Newcombe, Statistics in Medicine, 1998.",
  },
  {
    names: /Clopper/,
    name: "Exact interval",
    does: "An interval for a share that covers the truth at least as often as it says.",
    source: "Clopper and Pearson, Biometrika, 1934.",
  },
  {
    names: /patient-clustered/,
    name: "Intervals clustered by patient",
    does: "Where patients give two eyes, intervals for shares and curves allow for the eyes of one patient being alike: two eyes of one person are not two people.",
    source:
      "Rao and Scott, Biometrics, 1992; the variance of a ratio: Cochran, Sampling Techniques, 1977; for the curve: Therneau and Grambsch, Modeling Survival Data, 2000.",
  },
  {
    names: /[Ss]igned-rank/,
    name: "Signed-rank test",
    does: "Whether paired changes lean to one side, and by how much: the median of all averages of two changes.",
    source:
      "Wilcoxon, Biometrics Bulletin, 1945; Pratt, J Am Stat Assoc, 1959; Hodges and Lehmann, Annals of Mathematical Statistics, 1963.",
  },
  {
    names: /Newcombe|rate_difference/,
    name: "Newcombe interval",
    does: "An interval for the difference of two shares, from the intervals of both.",
    source: "Newcombe, Statistics in Medicine, 1998.",
  },
  {
    names: /c-statistic/,
    name: "c-statistic with score limits",
    does: "How often, of an eye that failed and one that did not, the model gave the greater risk to the one that failed; its interval keeps its promise also with few failures.",
    source: "Newcombe, Statistics in Medicine, 2006.",
  },
  {
    names: /Brier score/,
    name: "Brier score",
    does: "How far the predicted risks lie from what happened, squared and averaged: less is better, and what the overall share alone would have is told beside it.",
    source: "Brier, Monthly Weather Review, 1950; its parts: Murphy, J Appl Meteorol, 1973.",
  },
  {
    names: /Test of equal shares at that time/,
    name: "Curves compared at one time",
    does: "Whether groups are equally often attached at the time asked for, whatever the curves do before and after.",
    source: "Klein, Logan, Harhoff and Andersen, Statistics in Medicine, 2007.",
  },
  {
    names: /Fisher/,
    name: "Fisher's exact test",
    does: "Whether two shares differ by more than chance, counted out where numbers are small; mid-P is its less cautious form.",
    source: "Fisher, J R Stat Soc, 1935; mid-P: Lancaster, J Am Stat Assoc, 1961.",
  },
  {
    names: /Mantel–Haenszel/,
    name: "Mantel–Haenszel estimate",
    does: "One comparison made within strata of risk and put together, so that like is compared with like.",
    source: "Mantel and Haenszel, J Natl Cancer Inst, 1959.",
  },
  {
    names: /log-rank/,
    name: "Log-rank test",
    does: "Whether curves differ by more than chance over their whole length.",
    source: "Mantel, Cancer Chemotherapy Reports, 1966; Peto and Peto, J R Stat Soc A, 1972.",
  },
  {
    names: /[Hh]azard ratio/,
    name: "Cox regression",
    does: "How many times as fast eyes of one group fail as eyes of another, with allowance for what else is in the model; two eyes of a patient are not taken for two patients.",
    source: "Cox, J R Stat Soc B, 1972; by patient: Lin and Wei, J Am Stat Assoc, 1989.",
  },
  {
    names: /Grambsch–Therneau/,
    name: "Test of proportional hazards",
    does: "Whether a hazard ratio is the same early and late.",
    source: "Grambsch and Therneau, Biometrika, 1994.",
  },
  {
    names: /failure_incidence/,
    name: "Cumulative incidence by cause",
    does: "How many eyes have failed from each cause by a day, where failing from one rules out the others.",
    source: "Aalen, Annals of Statistics, 1978; groups compared: Gray, Annals of Statistics, 1988.",
  },
  {
    names: /follow_up/,
    name: "Follow-up",
    does: "How long eyes were followed, read from the curve turned round; completeness is the share of the possible follow-up that was observed.",
    source:
      "Schemper and Smith, Controlled Clinical Trials, 1996; Clark, Altman and De Stavola, Lancet, 2002.",
  },
  {
    names: /standardised_rate/,
    name: "Standardised rate",
    does: "What each group's rate would be had all groups had the same eyes, by a model; interval by drawing the patients again and again.",
    source: "Efron and Tibshirani, An Introduction to the Bootstrap, 1993.",
  },
  {
    names: /odds ratio.*profile|risk_model/,
    name: "Logistic regression",
    does: "The odds of failure by risk factor, all factors together; with few failures by a penalised likelihood.",
    source:
      "Cox, J R Stat Soc B, 1958; Firth, Biometrika, 1993; Heinze and Schemper, Statistics in Medicine, 2002.",
  },
  {
    names: /Cochran–Armitage/,
    name: "Test of trend",
    does: "Whether a share rises or falls over ordered groups.",
    source: "Cochran, Biometrics, 1954; Armitage, Biometrics, 1955.",
  },
  {
    names: /Poisson-binomial|observed_expected/,
    name: "Observed over expected",
    does: "Failures against those expected of the same eyes by a model fitted without the person judged.",
    source: "Exact limits from the distribution of a sum of unequal risks.",
  },
  {
    names: /^funnel$/m,
    name: "Funnel plot",
    does: "Rates against numbers, with the limits that chance alone seldom passes.",
    source: "Spiegelhalter, Statistics in Medicine, 2005.",
  },
  {
    names: /^(cusum|observed_minus_expected)$/m,
    name: "Cumulative sums",
    does: "Operations in order, each set against what was expected of the eye, so that a change shows early.",
    source: "Steiner, Cook, Farewell and Treasure, Biostatistics, 2000.",
  },
  {
    names: /^learning_curve$/m,
    name: "Learning curve",
    does: "Whether an agreed level is reached, decided operation by operation with stated chances of error.",
    source: "Biau, Williams, Schlup, Nizard and Porcher, Br J Surg, 2008.",
  },
  {
    names: /table of Bach|acuity_change/,
    name: "Acuity",
    does: "Sight in logMAR, before and after in the same eye; counting fingers and less by the table that is named beside the mean.",
    source: "The table named in the answer.",
  },
];
