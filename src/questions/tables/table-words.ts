import type { Word } from "../../formula/vocabulary.ts";
import type { Question } from "../question.ts";
import { band } from "./band.ts";
import { chart } from "./chart.ts";
import { countBy } from "./count-by.ts";
import { firstRows } from "./first-rows.ts";
import { groupValues } from "./group-values.ts";
import { join } from "./join.ts";
import { keep, leaveOut } from "./keep.ts";
import { show } from "./show.ts";
import { sortBy } from "./sort-by.ts";
import { summarise } from "./summarise.ts";
import { summaryWords } from "./summary-words.ts";
import { withColumnWord } from "./with-column.ts";

/** Questions that any table answers. */
export const tableQuestions: readonly Question[] = [countBy, summarise, chart, show];

/** Words that make tables of tables, and values of rows. */
export const tableWords: readonly Word[] = [
  keep,
  leaveOut,
  withColumnWord,
  band,
  groupValues,
  sortBy,
  firstRows,
  join,
  ...summaryWords,
];
