import type { Correction } from "../../cases/corrections/correction.ts";
import { readCorrections } from "../../cases/corrections/read-corrections.ts";
import type { FurtherFileKind } from "../../cases/joining/join-report.ts";
import type { CaseFile } from "../../cases/open-file.ts";
import type { Problem } from "../../problem/problem.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import { isSame } from "../../recalculation/is-same.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import type { Request } from "../protocol.ts";
import { changedMatching } from "./changed-matching.ts";
import { correctValues } from "./correct-values.ts";
import type { EarlierCorrections } from "./earlier-corrections.ts";
import { openHeld } from "./held-cases.ts";
import { KeyedCodes } from "./keyed-codes.ts";

type Session = NotebookSession<SettingChange>;
type Problems = readonly Problem[];

/** Corrections that are saved as a file, or were opened from one. */
export type SavedCorrections = Set<Correction>;

export interface CasesAct {
  /** Whole days since 1970-01-01. */
  readonly today: number;
  readonly saved: SavedCorrections;
  readonly earlier: EarlierCorrections;
  /** The file that the request brings, made ready for reading. */
  readonly file: CaseFile | undefined;
}

/** Does what a request asks to change of the cases; undefined where it asks for something else. */
export function changeCases(
  session: Session,
  request: Request,
  { today, saved, earlier, file }: CasesAct,
): Problems | undefined {
  switch (request.ask) {
    case "open cases":
      earlier.leave(session);
      return file && session.openFile(file);
    case "add cases":
      return file && addCases(session, file, request.as);
    case "match columns": {
      const { front } = session.document;
      return session.setMatching(
        changedMatching(front.matching, session.caseReading, request.change),
      );
    }
    case "compute column":
      return session.setComputed(request.column, request.working);
    case "correct":
      return correctValues(session, { ...request, today });
    case "take back corrections":
      return takeBack(session, request.positions);
    case "open corrections":
      return openCorrections(session, request, saved);
    case "lay earlier corrections":
      return layEarlier(session, earlier);
    case "use key":
      return useKey(session, request.secret);
    case "open kept cases":
      return openHeld(session, request.kept);
    default:
      return undefined;
  }
}

/** A file of the same name as one before has a number added to its own. */
function addCases(session: Session, file: CaseFile, as: FurtherFileKind): Problems {
  const taken = [session.caseFile, ...session.laid.further].map((known) => known?.name);
  let { name } = file;
  for (let n = 2; taken.includes(name); n++) name = `${file.name} (${n})`;
  return session.addFile({ ...file, name, as });
}

function takeBack(session: Session, positions: readonly number[]): Problems {
  const { corrections } = session.laid;
  const rest = corrections.filter((_, position) => !positions.includes(position));
  if (rest.length === corrections.length) return [];
  const name = positions.length === 1 ? "take back a correction" : "take back corrections";
  return session.setCorrections(name, rest);
}

/** Those that are in the list already are not laid twice. */
function openCorrections(
  session: Session,
  { name, text }: { readonly name: string; readonly text: string },
  saved: SavedCorrections,
): Problems {
  const read = readCorrections(text, name);
  const before = session.laid.corrections;
  const isKnown = (one: Correction) => before.some((other) => isSame(one, other));
  const added = read.corrections.filter((correction) => !isKnown(correction));
  for (const correction of added) saved.add(correction);
  if (added.length > 0) session.setCorrections(`open ${name}`, [...before, ...added]);
  return read.problems;
}

function layEarlier(session: Session, earlier: EarlierCorrections): Problems {
  const missing = earlier.missingIn(session);
  if (missing.length === 0) return [];
  earlier.forget();
  return session.setCorrections("lay the earlier corrections", [
    ...session.laid.corrections,
    ...missing,
  ]);
}

function useKey(session: Session, secret: Uint8Array | undefined): Problems {
  if (secret === undefined) return session.setCodes("number the patients", undefined);
  return session.setCodes("use a key of my own", new KeyedCodes(secret).codeOf);
}
