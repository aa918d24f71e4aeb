import { readFileSync } from "node:fs";
import { readCases } from "../../src/cases/read-cases.ts";
import { definitionNamed } from "../../src/notebook/notebook-document.ts";
import { answeredOf } from "../../src/page/worker/answered-in.ts";
import { localDay } from "../../src/page/worker/local-day.ts";
import { type Answer, sentenceText } from "../../src/questions/answer.ts";
import { settingOf } from "../../src/questions/settings/setting-of.ts";
import { type SettingChange, withSetting } from "../../src/questions/settings/with-setting.ts";
import { vocabulary } from "../../src/questions/vocabulary.ts";
import { NotebookSession } from "../../src/recalculation/notebook-session.ts";
import { projectPath } from "./project-path.ts";

export const demoNotebook = readFileSync(projectPath("notebooks/demo.md"), "utf8");
export const demoCases = readFileSync(projectPath("data-demo/repairs.csv"), "utf8");

/** The same notebook and cases worked out in Node, without the page and without its build. */
export class NodeSession {
  readonly session = new NotebookSession<SettingChange>({
    vocabulary,
    version: "0.1.0",
    withSetting,
    readCases: (file, matching) => readCases(file, { matching, today: localDay(new Date()) }),
  });

  constructor(cases = demoCases, notebook = demoNotebook) {
    this.session.openNotebook("demo.md", notebook);
    this.session.openCases("repairs.csv", new TextEncoder().encode(cases));
  }

  /** Where a setting stands, and a place where it does not. */
  choice(name: string): { readonly now: number; readonly other: number; readonly label: string } {
    const setting = settingOf(definitionNamed(this.session.document, name)?.working ?? "");
    if (setting?.type !== "choice") throw new Error(`${name} is not a choice`);
    const other = setting.now === 0 ? 1 : setting.now - 1;
    return { now: setting.now, other, label: setting.options[other] ?? "" };
  }

  /** What each answering cell says, in reading order. */
  async sentences(): Promise<ReadonlyMap<string, string>> {
    const answers = await this.answers();
    return new Map(
      [...answers].map(([name, { sentence }]) => [
        name,
        sentenceText(sentence).replace(/\s+/g, " ").trim(),
      ]),
    );
  }

  async answers(): Promise<ReadonlyMap<string, Answer>> {
    const { sheet } = this.session;
    await sheet.settled();
    const answers = new Map<string, Answer>();
    for (const name of sheet.names()) {
      const answered = answeredOf(sheet.state(name));
      if (answered !== undefined) answers.set(name, answered.answer);
    }
    return answers;
  }
}
