import packageFacts from "../../package.json" with { type: "json" };
import { describeWord } from "../formula/describe-word.ts";
import { nearestName } from "../problem/nearest-name.ts";
import type { Question } from "../questions/question.ts";
import { poolingVocabulary as vocabulary } from "../questions/vocabulary.ts";
import { checkCases } from "./check-cases.ts";
import { readCommandLine } from "./command-line.ts";
import { compareFiles } from "./compare-files.ts";
import type { Exit, Surroundings } from "./exit.ts";
import { helpOf, helpText } from "./help-text.ts";
import { listFields } from "./list-fields.ts";
import { makeReport, type ReportAsked } from "./make-report.ts";
import { poolDepartments } from "./pool-departments.ts";
import { watchReport } from "./watch-report.ts";
import { aggregatesSchema, writeAggregates } from "./write-aggregates.ts";
import { saidIfRefused } from "./write-files.ts";

/** Does what the command line asks; the exit code says how it went. */
export function run(given: readonly string[], speaker: Surroundings): Promise<Exit> {
  return saidIfRefused(() => done(given, speaker), speaker);
}

async function done(given: readonly string[], speaker: Surroundings): Promise<Exit> {
  const asked = readCommandLine(given);
  switch (asked.act) {
    case "refused":
      speaker.warn(`${asked.why}\nholdfast --help says what can be asked.\n`);
      return 2;
    case "help":
      speaker.say(helpOf(asked.of ?? "") ?? helpText);
      return 0;
    case "version":
      speaker.say(`holdfast ${packageFacts.version}\n`);
      return 0;
    case "words":
      return asked.word === undefined ? allWords(speaker) : oneWord(asked.word, speaker);
    case "fields":
      return listFields(asked.field, speaker);
    case "check":
      return checkCases(asked, speaker);
    case "compare":
      return compareFiles(asked, { ...speaker, version: packageFacts.version });
    case "aggregates schema":
      speaker.say(aggregatesSchema());
      return 0;
    case "aggregates":
      return writeAggregates(asked, { ...speaker, version: packageFacts.version });
    case "pooled report":
      return poolDepartments(asked, speaker);
    case "report":
      return report(asked, { ...speaker, version: packageFacts.version });
  }
}

function report(
  asked: ReportAsked & { readonly watch: boolean },
  speaker: Surroundings & { readonly version: string },
): Promise<Exit> {
  const stopped = asked.watch ? speaker.whenStopped?.() : undefined;
  return stopped === undefined ? makeReport(asked, speaker) : watchReport(asked, speaker, stopped);
}

function allWords(speaker: Surroundings): Exit {
  const width = Math.max(...[...vocabulary.keys()].map((name) => name.length));
  for (const { name, meaning } of vocabulary.values()) {
    speaker.say(`${name.padEnd(width)}  ${meaning}\n`);
  }
  return 0;
}

function oneWord(name: string, speaker: Surroundings): Exit {
  const word = vocabulary.get(name);
  if (word === undefined) {
    const near = nearestName(name, vocabulary.keys());
    const meant = near === undefined ? "" : ` Did you mean ${near}?`;
    speaker.warn(`There is no word ${name}.${meant} holdfast words lists them all.\n`);
    return 2;
  }
  const example = (word as Partial<Question>).example;
  speaker.say(
    `${describeWord(word)}\n${example === undefined ? "" : `\nfor example\n    ${example}\n`}`,
  );
  return 0;
}
