import type { Host } from "../../src/page/host/host.ts";
import type { News, Replies, Request } from "../../src/page/protocol.ts";
import { caseRow, casesView } from "./fake-cases.ts";
import { cellViews, notebookView } from "./fake-sheet.ts";
import { wordViews } from "./fake-words.ts";

/** A stand-in for the worker: it shows a fixed sheet and remembers what it was asked. */
export class FakeHost implements Host {
  readonly asked: Request[] = [];
  /** Called with every request, before it is answered; may throw. */
  onAsk: (request: Request) => void = () => {};
  #hear: (news: News) => void = () => {};

  listen(hear: (news: News) => void): void {
    this.#hear = hear;
  }

  tell(news: News): void {
    this.#hear(news);
  }

  async ask<R extends Request>(request: R): Promise<Replies[R["ask"]]> {
    this.asked.push(request);
    this.onAsk(request);
    return this.#reply(request) as Replies[R["ask"]];
  }

  #reply(request: Request): Replies[Request["ask"]] {
    switch (request.ask) {
      case "words":
        return { words: wordViews };
      case "open notebook":
        this.tell({ tell: "notebook", view: notebookView });
        this.tell({ tell: "cells", views: cellViews });
        return done;
      case "open cases":
        this.tell({ tell: "cases", view: { ...casesView, file: request.name } });
        return done;
      case "set setting":
        return this.#set(request);
      case "pick":
        return pickReply(request.key);
      case "complete":
        return { from: request.offset, to: request.offset, options: [] };
      case "case rows":
        return { rows: Array.from({ length: request.count }, (_, i) => caseRow(request.from + i)) };
      case "notebook text":
        return { name: "demo.md", text: "# Demo\n" };
      default:
        return done;
    }
  }

  #set(request: Extract<Request, { ask: "set setting" }>): Replies["set setting"] {
    const view = cellViews.find(({ name }) => name === request.cell);
    if (view?.setting?.type === "choice" && typeof request.to === "number") {
      const setting = { ...view.setting, now: request.to };
      this.tell({ tell: "cells", views: [{ ...view, setting }] });
    }
    return done;
  }
}

const done = { done: true, problems: [] };

function pickReply(key: string): NonNullable<Replies["pick"]> {
  return {
    title: key,
    behind: {
      headings: ["case", "eye", "day", "cause", "surgeon"],
      rows: [
        { lines: [174, 201], texts: ["0173", "right", "day 41", "PVR", "surgeon C"] },
        { lines: [289], texts: ["0288", "left", "day 41", "new break", "surgeon A"] },
      ],
    },
  };
}
