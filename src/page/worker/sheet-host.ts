import { version } from "../../../package.json" with { type: "json" };
import type { CaseReading } from "../../cases/case-reading.ts";
import { readCaseFiles } from "../../cases/joining/read-case-files.ts";
import type { CaseFile } from "../../cases/open-file.ts";
import { prepareFile } from "../../cases/workbook/prepare-file.ts";
import { sheetsIn } from "../../cases/workbook/sheets-in.ts";
import type { Value } from "../../formula/value.ts";
import { type SettingChange, withSetting } from "../../questions/settings/with-setting.ts";
import { poolingInputs, poolingVocabulary } from "../../questions/vocabulary.ts";
import { NotebookSession } from "../../recalculation/notebook-session.ts";
import type { DepartmentsRequest } from "../departments-protocol.ts";
import type { Done } from "../done.ts";
import { labels } from "../labels.ts";
import type { LeavingRequest } from "../leaving-protocol.ts";
import type { News, Replies, Request } from "../protocol.ts";
import { CasesAnswers } from "./answer-cases.ts";
import { answerLeaving } from "./answer-leaving.ts";
import { answerQuery } from "./answer-query.ts";
import { casesLeafView } from "./cases-leaf-view.ts";
import { casesView } from "./cases-view.ts";
import { CellViews } from "./cell-views.ts";
import { changeCases, type SavedCorrections } from "./change-cases.ts";
import { changeSession } from "./change-session.ts";
import { EarlierCorrections } from "./earlier-corrections.ts";
import { fileDigest, offersDigests } from "./file-digest.ts";
import { keyBehind } from "./keyed-codes.ts";
import { notebookView } from "./notebook-view.ts";
import { OpenDepartments } from "./open-departments.ts";
import { Pace } from "./pace.ts";
import { RecalculationProgress } from "./recalculation-progress.ts";
import { UndoFloor } from "./undo-floor.ts";
import { writeAggregates } from "./write-aggregates.ts";

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
  #toldDepartments: Value | undefined;
  readonly #pace = new Pace();
  readonly #progress: RecalculationProgress;
  readonly #floor = new UndoFloor();
  readonly #saved: SavedCorrections = new Set();
  readonly #earlier = new EarlierCorrections();
  readonly #cases: CasesAnswers;
  readonly #departments: OpenDepartments;
  readonly #today: number;
  #ask: Request["ask"] = "words";
  #changed = false;
  #readingAgain = false;

  /** `today`: whole days since 1970-01-01; dates of the cases after it are queries. */
  constructor(tell: (news: News) => void, today: number) {
    this.#tell = tell;
    this.#today = today;
    this.#session = new NotebookSession<SettingChange>({
      vocabulary: poolingVocabulary,
      inputs: poolingInputs,
      version,
      withSetting,
      turn: () => this.#pace.turn(),
      readCases: (file, matching, { further, corrections, codeOf }) =>
        this.#read(file, further.length === 0, () =>
          readCaseFiles(file, further, {
            ...{ matching, today },
            ...(corrections.length > 0 && { corrections }),
            ...(codeOf && { pseudonym: codeOf }),
          }),
        ),
    });
    this.#views = new CellViews(this.#session, tell, today);
    const { sheet } = this.#session;
    this.#progress = new RecalculationProgress({
      ...{ sheet, tell, views: this.#views, pace: this.#pace },
    });
    this.#cases = new CasesAnswers(this.#session, this.#saved);
    this.#departments = new OpenDepartments(this.#session);
    this.#session.onChange(() => this.#tellChange());
  }

  /** Answers once all that the request set off is worked out and told, or is stopped. */
  async answer<R extends Request>(request: R): Promise<Replies[R["ask"]]> {
    if (request.ask === "stop" || request.ask === "go on") {
      return this.#hold(request.ask) as Replies[R["ask"]];
    }
    if (request.ask === "sheets in") {
      return { sheets: await sheetsIn(request.bytes) } as Replies[R["ask"]];
    }
    if (isLeaving(request)) return this.#leave(request) as Promise<Replies[R["ask"]]>;
    const known = this.#cases.answer(request);
    if (known !== undefined) return this.#answered(request, await known) as Replies[R["ask"]];
    const file = await fileIn(request);
    const isInvented = request.ask === "open cases" && request.invented === true;
    if (isInvented) this.#invented.bytes.add(request.bytes);
    if (request.ask === "undo" && !this.#floor.canUndo) return nothingDone as Replies[R["ask"]];
    this.#changed = false;
    this.#ask = request.ask;
    this.#pace.begin();
    const about = { today: this.#today, saved: this.#saved, earlier: this.#earlier, file };
    const problems =
      changeCases(this.#session, request, about) ??
      this.#departments.change(request) ??
      changeSession(this.#session, request, this.#today);
    await this.#codePatients();
    if ("atStart" in request) this.#beginHere();
    if (problems === undefined) return answerQuery(this.#session, request) as Replies[R["ask"]];
    const done = this.#changed || problems.length === 0;
    this.#pace.goOn();
    await this.#progress.settle();
    return { done, problems } as Replies[R["ask"]];
  }

  #hold(ask: "stop" | "go on"): Done {
    if (ask === "stop") this.#progress.stop();
    else this.#progress.goOn();
    return nothingDone;
  }

  /** What leaves the page is worked out to its end first. */
  async #leave(request: Leaving): Promise<Replies[Leaving["ask"]]> {
    this.#pace.goOn();
    await this.#progress.settle();
    if (request.ask === "write aggregates") return writeAggregates(this.#session, request, version);
    const departments = this.#departments;
    return answerLeaving(this.#session, request, { version, today: this.#today, departments });
  }

  #tellChange(): void {
    this.#changed = true;
    if (!this.#readingAgain) this.#floor.count(this.#ask);
    this.#tellNotebook();
    this.#tellDepartments();
    const reading = this.#session.caseReading;
    if (reading === this.#toldReading || reading === undefined) return;
    this.#toldReading = reading;
    this.#tellCases(reading);
  }

  #tellCases(reading: CaseReading): void {
    const invented = this.#invented.readings.has(reading);
    const { laid, document } = this.#session;
    const { computed } = document.front;
    const earlier = this.#earlier.view(this.#session);
    const leaf = casesLeafView(reading, { laid, computed, earlier }, this.#saved);
    this.#tell({ tell: "cases", view: casesView(reading, invented, leaf) });
  }

  #tellDepartments(): void {
    const value = this.#session.given("departments")?.value;
    if (value === this.#toldDepartments) return;
    this.#toldDepartments = value;
    this.#tell({ tell: "departments", view: this.#departments.view });
  }

  /** Once corrections are saved, the page is told so. */
  #answered<Reply>(request: Request, reply: Reply): Reply {
    const { caseReading } = this.#session;
    if (request.ask === "save corrections" && caseReading) this.#tellCases(caseReading);
    return reply;
  }

  /** Patients whom the reader's key has met for the first time get their codes. */
  async #codePatients(): Promise<void> {
    if ((await keyBehind(this.#session.laid.codeOf)?.learn()) !== true) return;
    this.#readingAgain = true;
    this.#session.readAgain();
    this.#readingAgain = false;
  }

  #tellNotebook(): void {
    const { canUndo } = this.#floor;
    this.#tell({ tell: "notebook", view: notebookView(this.#session, { canUndo }) });
  }

  #beginHere(): void {
    this.#floor.begin();
    this.#tellNotebook();
  }

  #read(file: CaseFile, isAlone: boolean, read: () => CaseReading): CaseReading {
    const doing = labels.reading(file.name);
    const isLong = file.bytes.length > longFile;
    if (isLong) this.#tell({ tell: "progress", progress: { doing, finished: false } });
    const reading = read();
    if (isLong) this.#tell({ tell: "progress", progress: { doing, finished: true } });
    if (isAlone && this.#invented.bytes.has(file.bytes)) this.#invented.readings.add(reading);
    return reading;
  }
}

/** What asks for something to leave the page. */
type Leaving = LeavingRequest | Extract<DepartmentsRequest, { ask: "write aggregates" }>;

function isLeaving(request: Request): request is Leaving {
  return ["report", "finding", "write aggregates"].includes(request.ask);
}

/** The file of cases that a request brings; a workbook is made ready before anything is done. */
async function fileIn(request: Request): Promise<CaseFile | undefined> {
  if (request.ask !== "open cases" && request.ask !== "add cases") return undefined;
  const { name, bytes, sheet } = request;
  const file = await prepareFile({ name, bytes, sheet });
  if (file.workbook === undefined || !offersDigests()) return file;
  return { ...file, workbook: { ...file.workbook, sha256: await fileDigest(bytes) } };
}
