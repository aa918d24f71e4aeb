import type { CaseReading } from "../../cases/case-reading.ts";
import { readCases } from "../../cases/read-cases.ts";
import { type SettingChange, withSetting } from "../../questions/settings/with-setting.ts";
import { vocabulary } from "../../questions/vocabulary.ts";
import { NotebookSession } from "../../recalculation/notebook-session.ts";
import { labels } from "../labels.ts";
import type { Done, News, Replies, Request } from "../protocol.ts";
import { answerQuery } from "./answer-query.ts";
import { casesView } from "./cases-view.ts";
import { CellViews } from "./cell-views.ts";
import { changeSession } from "./change-session.ts";
import { notebookView } from "./notebook-view.ts";
import { UndoFloor } from "./undo-floor.ts";

/** Bytes from which reading a file is told to the reader as long work. */
const longFile = 2_000_000;

const nothingDone: Done = { done: true, problems: [] };

/** Holds the notebook session for the page: answers its requests and tells it what changed. */
export class SheetHost {
  readonly #session: NotebookSession<SettingChange>;
  readonly #tell: (news: News) => void;
  readonly #views: CellViews;
  readonly #invented = { bytes: new WeakSet<Uint8Array>(), readings: new WeakSet<CaseReading>() };
  #toldReading: CaseReading | undefined;
  readonly #floor = new UndoFloor();
  #ask: Request["ask"] = "words";
  #changed = false;

  /** `today`: whole days since 1970-01-01; dates of the cases after it are queries. */
  constructor(tell: (news: News) => void, today: number) {
    this.#tell = tell;
    this.#session = new NotebookSession<SettingChange>({
      vocabulary,
      withSetting,
      readCases: (file, matching) => this.#read(file, () => readCases(file, { matching, today })),
    });
    this.#views = new CellViews(this.#session, tell);
    this.#session.onChange(() => this.#tellChange());
  }

  /** Answers once all that the request set off is worked out and told. */
  async answer<R extends Request>(request: R): Promise<Replies[R["ask"]]> {
    const isInvented = request.ask === "open cases" && request.invented === true;
    if (isInvented) this.#invented.bytes.add(request.bytes);
    if (request.ask === "undo" && !this.#floor.canUndo) return nothingDone as Replies[R["ask"]];
    this.#changed = false;
    this.#ask = request.ask;
    const problems = changeSession(this.#session, request);
    if (isInvented) this.#beginHere();
    if (problems === undefined) return answerQuery(this.#session, request) as Replies[R["ask"]];
    this.#views.tellStale();
    await this.#session.sheet.settled();
    this.#views.tellChanged();
    const done = this.#changed || problems.length === 0;
    return { done, problems } as Replies[R["ask"]];
  }

  #tellChange(): void {
    this.#changed = true;
    this.#floor.count(this.#ask);
    this.#tellNotebook();
    const reading = this.#session.caseReading;
    if (reading === this.#toldReading || reading === undefined) return;
    this.#toldReading = reading;
    const invented = this.#invented.readings.has(reading);
    this.#tell({ tell: "cases", view: casesView(reading, invented) });
  }

  #tellNotebook(): void {
    const { canUndo } = this.#floor;
    this.#tell({ tell: "notebook", view: notebookView(this.#session, { canUndo }) });
  }

  #beginHere(): void {
    this.#floor.begin();
    this.#tellNotebook();
  }

  #read(file: { name: string; bytes: Uint8Array }, read: () => CaseReading): CaseReading {
    const doing = labels.reading(file.name);
    const isLong = file.bytes.length > longFile;
    if (isLong) this.#tell({ tell: "progress", progress: { doing, finished: false } });
    const reading = read();
    if (isLong) this.#tell({ tell: "progress", progress: { doing, finished: true } });
    if (this.#invented.bytes.has(file.bytes)) this.#invented.readings.add(reading);
    return reading;
  }
}
