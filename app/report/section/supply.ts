/** The supply check as a table: sortie by propellant. */
import { formatDate } from "../../format/time.ts";
import { findingSentence } from "../../supply/finding-sentence.ts";
import { type Weight, weightOf } from "../../supply/weight.ts";
import {
  instant,
  linked,
  mass,
  massColumn,
  figureColumn,
  nothing,
  percent,
  shortage,
  spanDays,
  text,
  wordColumn,
} from "../cell.ts";
import type { ReportContext } from "../context.ts";
import { sheetsBySortie } from "../flown-sheets.ts";
import type { Block, Cell, RowMark } from "../model.ts";
import { flightName, propellantName } from "../names.ts";

const headings: readonly (readonly [Weight, string])[] = [
  ["breaks", "Findings that break the plan"],
  ["conditions", "Warnings"],
  ["note", "Notes"],
];

export const supplyBlocks = (context: ReportContext): readonly Block[] => {
  const { supply, view } = context.main;
  const sheets = sheetsBySortie(context);
  const rows = supply.sorties.flatMap((sortie) =>
    sortie.lines.map((line, index): readonly Cell[] => [
      linked(sortie.name, index === 0 ? (sheets.get(sortie.sortieId) ?? null) : null),
      instant(sortie.plannedAt),
      text(propellantName(view.plan, line.propellantId)),
      mass(line.availableKg),
      mass(line.requiredKg),
      shortage(line.marginOverReserveKg),
      percent(line.marginPercent),
      line.missingKg > 0 ? shortage(line.missingKg) : nothing,
      text(sortie.landerIsAway ? "lander away" : line.status),
    ]),
  );
  const unstated = supply.sorties
    .filter(({ status }) => status === "not stated")
    .map((sortie): readonly Cell[] => [
      text(sortie.name),
      instant(sortie.plannedAt),
      ...Array.from({ length: 6 }, () => nothing),
      text(sortie.status),
    ]);
  // The short rows by weight and a mark, not by a word alone.
  const marks = supply.sorties
    .flatMap((sortie) => sortie.lines.map((line) => sortie.landerIsAway || line.status === "short"))
    .flatMap((isMarked, row): readonly RowMark[] => (isMarked ? [{ row, as: "warning" }] : []));
  const byWeight = Map.groupBy(supply.findings, weightOf);
  const findings = headings.flatMap(([weight, title]): readonly Block[] => {
    // A list for each kind: where one is cut on paper, no other kind is lost in it.
    const byKind = [...Map.groupBy(byWeight.get(weight) ?? [], ({ kind }) => kind).values()];
    const lists = byKind.map((same): Block => ({
      kind: "list",
      items: same.map((finding) => findingSentence(view.plan, finding)),
    }));
    return lists.length === 0 ? [] : [{ kind: "paragraph", text: title }, ...lists];
  });
  return [
    {
      kind: "table",
      id: "supply",
      caption: "Supply check at loading. Margin is what is left over the reserve.",
      columns: [
        wordColumn("Sortie", 2.2),
        wordColumn("Loads", 1.5),
        wordColumn("Propellant", 1.5),
        massColumn("Available", 1.2),
        massColumn("Required", 1.2),
        massColumn("Margin", 1.2),
        figureColumn("Margin", "%", 1),
        massColumn("Missing", 1.1),
        wordColumn("Status", 1.1),
      ],
      rows: [...rows, ...unstated],
      marks,
    },
    ...findings,
  ];
};

/** How far each flight may slip, and when at the latest it must leave. */
export const slackBlocks = (context: ReportContext): readonly Block[] => {
  const { supply, view } = context.main;
  const rows = supply.latestDeparture.map(({ flightId, at }): readonly Cell[] => {
    const flight = view.plan.flights.find((each) => each.id === flightId);
    const slacks = supply.slack
      .filter((slack) => slack.flightId === flightId)
      .flatMap((slack) => (slack.slackDays === "any" ? [] : [slack.slackDays]));
    const classId = view.plan.craft.find(({ id }) => id === flight?.craftId)?.classId;
    const joint = supply.jointSlack.find((each) => each.classId === classId)?.slackDays;
    const hinging = supply.hinges
      .filter((hinge) => hinge.flightId === flightId)
      .map((hinge) => supply.sorties.find((sortie) => sortie.sortieId === hinge.sortieId)?.name ?? hinge.sortieId);
    return [
      text(flightName(view.plan, flightId)),
      instant(flight?.departAt ?? null),
      instant(flight?.arriveAt ?? null),
      slacks.length > 0 ? spanDays(Math.min(...slacks)) : text("no limit"),
      joint === undefined ? nothing : joint === "any" ? text("no limit") : spanDays(joint),
      at === null ? text(`after ${formatDate(view.plan.horizonAt)}`) : instant(at),
      text(hinging.join(", ")),
    ];
  });
  return [
    {
      kind: "table",
      id: "flights",
      caption:
        "Flights: by how much each alone, and all of its class together, can slip with every sortie as it stands, and what hinges on it.",
      columns: [
        wordColumn("Flight", 2),
        wordColumn("Departs", 1.4),
        wordColumn("Arrives", 1.4),
        figureColumn("Can slip by", "days", 1),
        figureColumn("All of its class", "days", 1),
        wordColumn("Latest departure", 1.6),
        wordColumn("Hinges on it", 2.4),
      ],
      rows,
    },
  ];
};
