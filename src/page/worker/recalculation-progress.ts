import type { Sheet } from "../../recalculation/sheet.ts";
import { labels } from "../labels.ts";
import type { News } from "../protocol.ts";
import type { CellViews } from "./cell-views.ts";
import type { Pace } from "./pace.ts";

/** Milliseconds between two tellings of how it goes: at first soon, then ever longer up to this. */
const tellEvery = 150;
const firstWait = 40;

interface Parts {
  readonly sheet: Sheet;
  readonly views: CellViews;
  readonly pace: Pace;
  tell(news: News): void;
}

/** Tells the page how a long recalculation goes, and lets the reader stop it and go on. */
export class RecalculationProgress {
  readonly #parts: Parts;
  #stale = 0;
  #told = 0;
  #wait = firstWait;
  #isShown = false;

  constructor(parts: Parts) {
    this.#parts = parts;
    parts.pace.onBreath = () => this.#breath();
  }

  /** Settles once all is worked out and told, or once the reader has stopped it. */
  async settle(): Promise<void> {
    const { sheet, views, pace } = this.#parts;
    views.tellStale();
    this.#stale = this.#left();
    this.#wait = firstWait;
    // The worker may not come to speak for a while: the page shows this only once that is long.
    if (this.#stale > 0) this.#tellProgress(false);
    const all = sheet.settled().then(() => this.#finish());
    await Promise.race([all, pace.halted()]);
  }

  /** Holds the recalculation; what is not worked out yet shows the old answers. */
  stop(): void {
    if (this.#left() === 0) return;
    this.#parts.pace.stop();
    this.#tellProgress(true);
  }

  goOn(): void {
    this.#parts.pace.goOn();
    if (this.#isShown) this.#tellProgress(false);
  }

  #finish(): void {
    if (this.#left() > 0) return;
    this.#parts.views.tellChanged();
    if (!this.#isShown) return;
    this.#isShown = false;
    this.#parts.tell({
      tell: "progress",
      progress: { doing: labels.recalculating, finished: true },
    });
  }

  #breath(): void {
    const now = performance.now();
    if (now - this.#told < this.#wait || this.#left() === 0) return;
    if (this.#parts.views.tellChanged()) {
      this.#told = now;
      this.#wait = Math.min(tellEvery, 2 * this.#wait);
    }
    this.#tellProgress(false);
  }

  #tellProgress(stopped: boolean): void {
    this.#isShown = true;
    const share = this.#stale === 0 ? 0 : Math.max(0, 1 - this.#left() / this.#stale);
    const progress = { doing: labels.recalculating, share, stopped, finished: false };
    this.#parts.tell({ tell: "progress", progress: { ...progress, canStop: true } });
  }

  /** Cells that are not worked out yet. */
  #left(): number {
    const { sheet } = this.#parts;
    return sheet.names().filter((name) => sheet.state(name).status === "recalculating").length;
  }
}
