import { readCorrections } from "../../cases/corrections/read-corrections.ts";
import { writeCorrections } from "../../cases/corrections/write-corrections.ts";
import type { CaseFile } from "../../cases/open-file.ts";
import type { Problem } from "../../problem/problem.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import type { HeldCases, HeldFile } from "../cases-protocol.ts";
import { KeyedCodes, keyBehind } from "./keyed-codes.ts";

type Session = NotebookSession<SettingChange>;

/** The cases with all that lies over them, to be kept; null where there are none. */
export function heldCases({ caseFile, laid }: Session): HeldCases | null {
  if (caseFile === undefined) return null;
  const secret = keyBehind(laid.codeOf)?.secret;
  return {
    files: [fileOf(caseFile), ...laid.further.map((file) => ({ ...fileOf(file), as: file.as }))],
    corrections: writeCorrections(laid.corrections),
    ...(secret && { secret }),
  };
}

/** Opens cases as they were kept. */
export function openHeld(session: Session, held: HeldCases): readonly Problem[] {
  const [first, ...others] = held.files;
  if (first === undefined) return [];
  const { corrections, problems } = readCorrections(held.corrections);
  const further = others.map((file) => ({ ...fileOf(file), as: file.as ?? "operations" }));
  const codeOf = held.secret && new KeyedCodes(held.secret).codeOf;
  const laid = { further, corrections, ...(codeOf && { codeOf }) };
  return [...problems, ...session.openFile(fileOf(first), laid)];
}

function fileOf({ name, bytes, workbook }: HeldFile): CaseFile {
  return { name, bytes, ...(workbook && { workbook }) };
}
