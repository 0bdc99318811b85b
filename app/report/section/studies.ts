/** Kept studies of the plan case: what was asked, whether it is of the plan as it is, the picture, the points. */
import { missingCase } from "../../ground/missing-case.ts";
import { formatNumber } from "../../format/number.ts";
import { formatMinute } from "../../format/time.ts";
import type { OutcomeAsked } from "../../study/question.ts";
import { shownUnit } from "../../study/shown-figure.ts";
import { gridValues, holdsAt, holdsWords, turnsOf } from "../../study/slices.ts";
import type { StudyAnswer } from "../../study/study-answer.ts";
import { cellAt, rowsIn } from "../../study/study-table.ts";
import { capitalised, counted, listed } from "../../words/counted.ts";
import type { ReportContext, ReportedStudy } from "../context.ts";
import type { Block, Fact, ReportMassUnit } from "../model.ts";
import { figureText } from "../study/study-figures.ts";
import { studyFigure } from "../study/study-figure.ts";
import { studyTable } from "../study/study-rows.ts";

export const STUDIES_ID = "studies";
/** As many as are told in full; of older ones the name. */
export const STUDIES_SHOWN = 3;
/** Rows of all of their tables together: what is issued is kept, and must stay of a size to be kept. */
const MAX_ROWS = 10_000;
/** Turning points told in words; there are more only where the outcome goes to and fro. */
const MAX_TURNS = 4;

const outcomeWords = (asked: OutcomeAsked): string => {
  switch (asked.kind) {
    case "supply":
      return "supply and margins by the exact forecast";
    case "verdict":
      return "the verdict";
    case "risk":
      return `how likely it holds, ${formatNumber(asked.runs)} runs a point under seed ${asked.seed}`;
    case "resupply":
      return "fewest flights and cost";
    default:
      return missingCase(asked);
  }
};

/** "Loss factor from 0 to 3, 7 values; the plan as it is has 1". */
const inputWords = (answer: StudyAnswer, input: number, massUnit: ReportMassUnit): string => {
  const { words = "", unit = "", today = null } = answer.inputs[input] ?? {};
  const shown = shownUnit(unit, massUnit);
  let [least, most] = [Infinity, -Infinity];
  for (let row = 0; row < rowsIn(answer.rows); row += 1) {
    const value = Number(cellAt(answer.rows, row, input));
    [least, most] = [Math.min(least, value), Math.max(most, value)];
  }
  const values = gridValues(answer, input);
  const range =
    least === most ? figureText(least, shown) : `from ${figureText(least, shown)} to ${figureText(most, shown)}`;
  const count = values === null ? "" : `, ${counted(values.length, "value")}`;
  return `${capitalised(words)} ${range}${count}${today === null ? "" : `; the plan as it is has ${figureText(today, shown)}`}`;
};

const designWords = ({ asked: { design }, points }: StudyAnswer): string => {
  const how = design.kind === "grid" ? "every value with every other" : "points that fill the ranges evenly";
  return `${counted(points, "point")}, ${how}`;
};

/** At how many points the plan holds; null: nothing asked says. */
const holdsFact = (answer: StudyAnswer, massUnit: ReportMassUnit): Fact | null => {
  const [holds, words] = [holdsAt(answer), holdsWords(answer)];
  if (holds === null || words === null) return null;
  const rows = rowsIn(answer.rows);
  let count = 0;
  for (let row = 0; row < rows; row += 1) if (holds(row)) count += 1;
  const shown = shownUnit(answer.inputs[0]?.unit ?? "", massUnit);
  const turns = turnsOf(answer).map(
    ({ below, above }) => `between ${figureText(below, shown)} and ${figureText(above, shown)}`,
  );
  const turned = turns.length === 0 ? "" : ` It begins or ceases to hold ${listed(turns, MAX_TURNS)}.`;
  return {
    term: "Holds",
    text: `At ${formatNumber(count)} of ${formatNumber(rows)} ${rows === 1 ? "point" : "points"} (${words}).${turned}`,
  };
};

const headFacts = ({ study }: ReportedStudy): Fact => ({
  term: `Study ${study.number}`,
  text: `${capitalised(study.name)}. Kept ${formatMinute(study.keptAt)} by ${study.author}, computed by version ${study.program}.`,
});

const STALE =
  "The plan, its records or the program have changed since it was kept: what follows is not of the plan in this report.";

const inFull = (one: ReportedStudy, answer: StudyAnswer, massUnit: ReportMassUnit, most: number): readonly Block[] => {
  const { study } = one;
  const of = `study ${study.number}`;
  const holds = holdsFact(answer, massUnit);
  const figure = studyFigure(answer, `study-${study.number}-picture`, of, massUnit);
  return [
    {
      kind: "facts",
      items: [
        headFacts(one),
        {
          term: "Varied",
          text: `${answer.inputs.map((_, input) => inputWords(answer, input, massUnit)).join(". ")}. ${capitalised(designWords(answer))}.`,
        },
        { term: "Asked", text: `${capitalised(listed(answer.asked.ask.map(outcomeWords)))}.` },
        ...(study.isStale ? [] : [{ term: "State", text: "Of the plan as it is in this report." }]),
        ...(holds === null ? [] : [holds]),
      ],
    },
    ...(study.isStale ? [{ kind: "caution", text: `Study ${study.number} is stale. ${STALE}` } as const] : []),
    ...(figure === null ? [] : [figure]),
    studyTable(answer, `study-${study.number}`, of, massUnit, most),
  ];
};

export const studyBlocks = ({ studies, choices }: ReportContext): readonly Block[] => {
  if (studies.length === 0) return [{ kind: "paragraph", text: "No study of this plan case is kept in the ledger." }];
  const shown = studies.slice(0, STUDIES_SHOWN);
  const older = studies.slice(STUDIES_SHOWN);
  const most = Math.floor(MAX_ROWS / shown.length);
  return [
    ...shown.flatMap((one): readonly Block[] =>
      one.answer === null
        ? [
            { kind: "facts", items: [headFacts(one)] },
            { kind: "caution", text: one.cannot ?? `The rows of study ${one.study.number} are not there.` },
          ]
        : inFull(one, one.answer, choices.massUnit, most),
    ),
    {
      kind: "list",
      items: older.map(
        ({ study }) =>
          `Study ${study.number}, ${study.name}, kept ${formatMinute(study.keptAt)}: ${counted(study.points, "point")}, in the ledger, not told here${study.isStale ? "; stale" : ""}.`,
      ),
    },
  ];
};
