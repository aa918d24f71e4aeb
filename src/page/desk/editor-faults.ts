import { type Diagnostic, linter } from "@codemirror/lint";
import type { Extension } from "@codemirror/state";
import type { Problem } from "../../problem/problem.ts";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";

/** Faults from the host, underlined where they lie, each with its remedy where there is one. */
export function faultsFrom(
  host: Host,
  cell: string,
  found: (text: string, problems: readonly Problem[]) => void,
): Extension {
  return linter(
    async (view) => {
      const text = view.state.doc.toString();
      const { problems } = await host.ask({ ask: "check", cell, text });
      if (view.state.doc.toString() === text) found(text, problems);
      return problems.map((problem) => diagnosticOf(problem, text.length));
    },
    { delay: 200 },
  );
}

function diagnosticOf(problem: Problem, length: number): Diagnostic {
  const span = problem.place.span ?? { start: 0, end: length };
  const { replacement } = problem;
  return {
    from: Math.min(span.start, length),
    to: Math.min(span.end, length),
    severity: problem.severity === "stop" ? "error" : "info",
    message: problem.message,
    actions:
      replacement === undefined
        ? []
        : [
            {
              name: labels.mend(replacement),
              apply: (view, from, to) =>
                view.dispatch({ changes: { from, to, insert: replacement } }),
            },
          ],
  };
}
