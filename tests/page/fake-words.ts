import type { Parameter } from "../../src/formula/vocabulary.ts";
import type { WordView } from "../../src/page/protocol.ts";

const parameter = (facts: Partial<Parameter> & Pick<Parameter, "name">): Parameter => ({
  meaning: facts.name,
  takes: "value",
  kinds: [],
  required: false,
  ...facts,
});

const eyes = parameter({ name: "eyes", kinds: ["eyes"], required: true });
const by = parameter({ name: "by", takes: "row", whenLeftOut: "all eyes together" });
const within = parameter({ name: "within", kinds: ["duration"], whenLeftOut: "all follow-up" });

/** Some words in the shape in which the worker tells them. */
export const wordViews: readonly WordView[] = [
  {
    name: "failure_rate",
    meaning: "how often it failed, with interval and bounds",
    parameters: [
      eyes,
      by,
      within,
      parameter({
        name: "interval",
        kinds: ["text"],
        choices: ["Wilson", "Clopper-Pearson"],
        whenLeftOut: '"Wilson"',
      }),
    ],
    answers: "answer",
    asks: "How often did it fail?",
    example: "failure_rate(eyes, by: technique, within: 12 months)",
  },
  {
    name: "attachment_curve",
    meaning: "curves of eyes remaining attached, with numbers at risk",
    parameters: [eyes, by, within, parameter({ name: "landmarks", kinds: ["list"] })],
    answers: "answer",
    asks: "When did it fail?",
    example: "attachment_curve(eyes, by: technique)",
  },
  {
    name: "failure_causes",
    meaning: "why they failed",
    parameters: [eyes, by],
    answers: "answer",
    asks: "Why did it fail?",
    example: "failure_causes(eyes)",
  },
  {
    name: "summarise",
    meaning: "one row a group",
    parameters: [
      parameter({ name: "table", kinds: ["table"], required: true }),
      by,
      parameter({ name: "figures", takes: "row", repeated: true }),
    ],
    answers: "table",
  },
];
