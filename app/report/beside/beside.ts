/** Two kept issues beside each other: which verdicts, dates and masses moved, as sentences, picture and tables. Pure. */
import { PlanningError } from "../../ground/failure.ts";
import { DAY_MS } from "../../ground/quantity.ts";
import { formatMass } from "../../format/mass.ts";
import { formatNumber } from "../../format/number.ts";
import { formatDate, formatMinute } from "../../format/time.ts";
import { CAUTION } from "../../words/caution.ts";
import { counted } from "../../words/counted.ts";
import { figureColumn, instant, massColumn, nothing, shortage, spanDays, text, wordColumn, mass } from "../cell.ts";
import type { FinishedReport } from "../finished.ts";
import { issueWord, shortHash } from "../format/subtitle.ts";
import type { Block, Cell, ReportModel, RowMark } from "../model.ts";
import { type Move, movesPicture } from "../../picture/moves-picture.ts";
import { chartBlock } from "../chart-block.ts";
import { type Standing, type StandingFlight, type StandingSortie, standingOf } from "./standing.ts";

/** Made when, by whom. */
export interface BesideMaking {
  readonly author: string;
  readonly issuedAt: number;
}

/** Masses nearer than this are the same, kg; computed dates nearer than this, ms. */
const SAME_KG = 0.0005;
const SAME_MS = 1000;
const PICTURE_WIDTH = 480;
const MAX_PICTURED = 40;

interface Pair<T> {
  readonly name: string;
  readonly before: T | null;
  readonly after: T | null;
}

/** In the order of the later issue; what is gone comes last. The k-th of a key belongs to the k-th. */
const paired = <T extends { readonly name: string }>(
  before: readonly T[],
  after: readonly T[],
  keyOf: (row: T) => string,
): readonly Pair<T>[] => {
  const waiting = Map.groupBy(before, keyOf);
  const pairs = after.map((row): Pair<T> => ({
    name: row.name,
    before: waiting.get(keyOf(row))?.shift() ?? null,
    after: row,
  }));
  return [...pairs, ...[...waiting.values()].flat().map((row) => ({ name: row.name, before: row, after: null }))];
};

const movedMs = (before: number | null | undefined, after: number | null | undefined): number | null => {
  if (before === null || before === undefined || after === null || after === undefined) return null;
  return Math.abs(after - before) < SAME_MS ? 0 : after - before;
};

const daysWords = (ms: number): string =>
  `${formatNumber(Math.abs(ms) / DAY_MS, 1)} days ${ms > 0 ? "later" : "earlier"}`;

const movedCell = (ms: number | null): Cell => (ms === null || ms === 0 ? nothing : spanDays(ms / DAY_MS));

const marginChanges = ({ before, after }: Pair<StandingSortie>) =>
  (after?.lines ?? []).flatMap((line) => {
    const earlier = before?.lines.find(({ propellant }) => propellant === line.propellant);
    if (earlier === undefined) return [];
    const change = line.marginKg - earlier.marginKg;
    return Math.abs(change) < SAME_KG ? [] : [{ propellant: line.propellant, change }];
  });

/** What moved of a sortie, in one sentence; null: nothing. */
const sortieSentence = (pair: Pair<StandingSortie>): string | null => {
  const { name, before, after } = pair;
  if (after === null) return `${name} is no longer planned.`;
  if (before === null) return `${name} is new: ${after.status}.`;
  const moved = movedMs(before.loadAt, after.loadAt);
  const parts = [
    ...(before.status === after.status ? [] : [`was ${before.status} and is ${after.status} now`]),
    ...(moved === null || moved === 0 ? [] : [`loads ${daysWords(moved)}`]),
    ...marginChanges(pair).map(
      ({ propellant, change }) =>
        `has ${formatMass(Math.abs(change))} ${change > 0 ? "more" : "less"} margin of ${propellant.toLowerCase()}`,
    ),
  ];
  return parts.length === 0 ? null : `${name} ${parts.join(", ")}.`;
};

const flightMoves = ({ before, after }: Pair<StandingFlight>) => ({
  departs: movedMs(before?.departAt, after?.departAt),
  arrives: movedMs(before?.arriveAt, after?.arriveAt),
});

const isMoved = (pair: Pair<StandingFlight>): boolean => {
  const { departs, arrives } = flightMoves(pair);
  return pair.before === null || pair.after === null || (departs ?? 0) !== 0 || (arrives ?? 0) !== 0;
};

const verdictTable = (reports: readonly FinishedReport[], standings: readonly Standing[]): Block => ({
  kind: "table",
  id: "issues",
  caption: "The two issues.",
  columns: [
    wordColumn("Issue", 0.8),
    wordColumn("Issued", 1.3),
    wordColumn("As of", 1.3),
    wordColumn("Plan case", 1.4),
    wordColumn("Inputs", 1.4),
    wordColumn("Verdict", 1),
    wordColumn("Why", 4),
  ],
  rows: reports.map(({ report }, index) => {
    const verdict = standings[index]?.verdict ?? null;
    return [
      text(issueWord(report)),
      instant(report.issuedAt),
      instant(report.asOfAt ?? null),
      text(report.caseName),
      text(shortHash(report.inputHash)),
      text(verdict?.word ?? "not in it"),
      text(
        verdict === null
          ? ""
          : `${verdict.sentence}${verdict.chance === undefined ? "" : ` ${verdict.chance.figure}: ${verdict.chance.words}`}`,
      ),
    ];
  }),
});

const sortieTable = (pairs: readonly Pair<StandingSortie>[]): Block => ({
  kind: "table",
  id: "sorties-beside",
  caption: "Sorties: when they load and how they stand, then and now.",
  columns: [
    wordColumn("Sortie", 2.2),
    wordColumn("Loads, then", 1.5),
    wordColumn("Loads, now", 1.5),
    figureColumn("Moved", "days", 1),
    wordColumn("Status, then", 1.3),
    wordColumn("Status, now", 1.3),
  ],
  rows: pairs.map(({ name, before, after }) => [
    text(name),
    instant(before?.loadAt ?? null),
    instant(after?.loadAt ?? null),
    movedCell(movedMs(before?.loadAt, after?.loadAt)),
    text(before?.status ?? "not in it"),
    text(after?.status ?? "no longer planned"),
  ]),
  marks: pairs.flatMap(({ after }, row): readonly RowMark[] =>
    after?.status === "short" ? [{ row, as: "warning" }] : [],
  ),
});

const massTable = (pairs: readonly Pair<StandingSortie>[]): Block => {
  const rows = pairs.flatMap(({ name, before, after }) => {
    const propellants = [
      ...new Set([...(after?.lines ?? []), ...(before?.lines ?? [])].map(({ propellant }) => propellant)),
    ];
    return propellants.map((propellant) => {
      const then = before?.lines.find((line) => line.propellant === propellant);
      const now = after?.lines.find((line) => line.propellant === propellant);
      const change = then === undefined || now === undefined ? null : now.marginKg - then.marginKg;
      const cells: readonly Cell[] = [
        text(name),
        text(propellant),
        then === undefined ? nothing : mass(then.availableKg),
        now === undefined ? nothing : mass(now.availableKg),
        then === undefined ? nothing : mass(then.requiredKg),
        now === undefined ? nothing : mass(now.requiredKg),
        then === undefined ? nothing : shortage(then.marginKg),
        now === undefined ? nothing : shortage(now.marginKg),
        change === null || Math.abs(change) < SAME_KG ? nothing : shortage(change),
      ];
      return { cells, isShort: now?.status === "short" };
    });
  });
  return {
    kind: "table",
    id: "masses-beside",
    caption: "Masses at loading, then and now. Margin is what is left over the reserve.",
    columns: [
      wordColumn("Sortie", 2),
      wordColumn("Propellant", 1.4),
      massColumn("Available, then", 1.2),
      massColumn("Available, now", 1.2),
      massColumn("Required, then", 1.2),
      massColumn("Required, now", 1.2),
      massColumn("Margin, then", 1.2),
      massColumn("Margin, now", 1.2),
      massColumn("Margin, change", 1.2),
    ],
    rows: rows.map(({ cells }) => cells),
    marks: rows.flatMap(({ isShort }, row): readonly RowMark[] => (isShort ? [{ row, as: "warning" }] : [])),
  };
};

const flightTable = (pairs: readonly Pair<StandingFlight>[]): Block => ({
  kind: "table",
  id: "flights-beside",
  caption: "Flights that moved.",
  columns: [
    wordColumn("Flight", 2),
    wordColumn("Departs, then", 1.5),
    wordColumn("Departs, now", 1.5),
    figureColumn("Moved", "days", 0.9),
    wordColumn("Arrives, then", 1.5),
    wordColumn("Arrives, now", 1.5),
    figureColumn("Moved, arrival", "days", 0.9),
  ],
  rows: pairs.map((pair) => {
    const { departs, arrives } = flightMoves(pair);
    const gone = text("no longer there");
    return [
      text(pair.name),
      pair.before === null ? text("not in it") : instant(pair.before.departAt),
      pair.after === null ? gone : instant(pair.after.departAt),
      movedCell(departs),
      instant(pair.before?.arriveAt ?? null),
      instant(pair.after?.arriveAt ?? null),
      movedCell(arrives),
    ];
  }),
});

const moveOf = (
  kind: "sortie" | "flight",
  name: string,
  thenAt: number | null,
  nowAt: number | null,
  statuses: readonly [string, string],
): Move => ({
  name,
  thenAt,
  nowAt,
  thenStatus: kind === "sortie" ? statuses[0] : "",
  nowStatus: kind === "sortie" ? statuses[1] : "",
});

const chartOf = (
  sorties: readonly Pair<StandingSortie>[],
  flights: readonly Pair<StandingFlight>[],
): readonly Block[] => {
  const moves = [
    ...sorties.map(({ name, before, after }) =>
      moveOf("sortie", name, before?.loadAt ?? null, after?.loadAt ?? null, [
        before?.status ?? "",
        after?.status ?? "",
      ]),
    ),
    ...flights.map(({ name, before, after }) => ({
      ...moveOf("flight", name, before?.arriveAt ?? null, after?.arriveAt ?? null, ["", ""]),
      thenStatus: "arrival",
      nowStatus: "arrival",
    })),
  ].filter(({ thenAt, nowAt }) => thenAt !== null || nowAt !== null);
  if (moves.length === 0) return [];
  const shown = moves.slice(0, MAX_PICTURED);
  const words = shown.map(({ name, thenAt, nowAt, nowStatus }) => {
    const at = [thenAt, nowAt].map((each) => (each === null ? "not in it" : formatDate(each)));
    return `${name}: ${at[0] === at[1] ? at[0] : `${at[0]}, now ${at[1]}`}${nowStatus === "" ? "" : `, ${nowStatus}`}`;
  });
  return [
    chartBlock({
      id: "moves",
      caption: `When sorties load and moved flights arrive, then and now.${moves.length > shown.length ? ` ${counted(moves.length - shown.length, "more is", "more are")} in the tables.` : ""}`,
      description: words.join("; "),
      picture: movesPicture(shown, PICTURE_WIDTH),
    }),
  ];
};

const missingWords = (which: string, { hasSupply, flights, verdict }: Standing): readonly string[] => {
  const parts = [
    ...(verdict === null ? ["verdict"] : []),
    ...(hasSupply ? [] : ["supply check (dates and masses of sorties)"]),
    ...(flights === null ? ["table of flights"] : []),
  ];
  return parts.length === 0
    ? []
    : [`${which} was issued without: ${parts.join(", ")}. What is not in both issues is not compared.`];
};

/** The two as one report. Throws "invalid input" where they are the same issue. */
export const issuesBeside = (earlier: FinishedReport, later: FinishedReport, making: BesideMaking): FinishedReport => {
  const [one, two] = [earlier.report, later.report];
  if (one.issueNumber === two.issueNumber)
    throw new PlanningError(
      "invalid input",
      "Choose two different issues: an issue does not differ from itself.",
      "against",
    );
  const [then, now] = [standingOf(earlier), standingOf(later)];
  const sorties = paired(then.sorties, now.sorties, ({ key }) => key);
  const flights =
    then.flights === null || now.flights === null ? [] : paired(then.flights, now.flights, ({ name }) => name);
  const moved = flights.filter(isMoved);
  const sentences = sorties.map(sortieSentence).filter((sentence) => sentence !== null);
  const still = flights.length - moved.length;
  const [first, second] = [issueWord(one), issueWord(two)];
  const cases =
    one.caseName === two.caseName ? [] : [`The issues are of two plan cases: ${one.caseName}, and ${two.caseName}.`];
  const model: ReportModel = {
    ...two,
    title: `${two.programme}: ${first.toLowerCase()} beside ${second.toLowerCase()}`,
    author: making.author,
    issuedAt: making.issuedAt,
    issueNumber: null,
    note: `${first} of ${formatMinute(one.issuedAt)} (then) beside ${second} of ${formatMinute(two.issuedAt)} (now)`,
    sections: [
      {
        id: "beside",
        title: "What moved",
        blocks: [
          verdictTable([earlier, later], [then, now]),
          ...[...cases, ...missingWords(first, then), ...missingWords(second, now)].map((words) => ({
            kind: "paragraph" as const,
            text: words,
          })),
          {
            kind: "list",
            items:
              sentences.length === 0 ? ["Every sortie stands as it did, with the same date and margins."] : sentences,
          },
          ...chartOf(sorties, moved),
        ],
      },
      {
        id: "sorties-beside",
        title: "Sorties",
        blocks: [sortieTable(sorties), massTable(sorties)].filter(
          (block) => block.kind !== "table" || block.rows.length > 0,
        ),
      },
      {
        id: "flights-beside",
        title: "Flights",
        blocks: [
          ...(moved.length === 0 ? [] : [flightTable(moved)]),
          {
            kind: "paragraph",
            text:
              flights.length === 0
                ? "Flights are not compared: they are not in both issues."
                : `${counted(still, "flight stands", "flights stand")} as before; ${counted(moved.length, "flight has moved, is new or is gone", "flights have moved, are new or are gone")}.`,
          },
        ],
      },
      { id: "caution", title: "Caution", blocks: [{ kind: "caution", text: CAUTION }] },
    ],
  };
  return { report: model, calendar: "", sorties: later.sorties };
};
