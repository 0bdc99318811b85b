/** The supply check as a table: sortie by propellant. */
import { formatDate } from "../../ledger/time.ts";
import { findingSentence } from "../../supply/finding-sentence.ts";
import { instant, mass, massColumn, figureColumn, nothing, percent, spanDays, text, wordColumn } from "../cell.ts";
import type { ReportContext } from "../context.ts";
import type { Block, Cell } from "../model.ts";
import { flightName, propellantName } from "../names.ts";

export const supplyBlocks = (context: ReportContext): readonly Block[] => {
  const { supply, view } = context.main;
  const rows = supply.sorties.flatMap((sortie) =>
    sortie.lines.map((line): readonly Cell[] => [
      text(sortie.name),
      instant(sortie.plannedAt),
      text(propellantName(view.plan, line.propellantId)),
      mass(line.availableKg),
      mass(line.requiredKg),
      mass(line.marginOverReserveKg),
      percent(line.marginPercent),
      line.missingKg > 0 ? mass(line.missingKg) : nothing,
      text(line.status),
    ]),
  );
  const findings = supply.findings.map((finding) => findingSentence(view.plan, finding));
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
      rows,
    },
    ...(findings.length > 0
      ? [{ kind: "paragraph", text: "Findings" } as const, { kind: "list", items: findings } as const]
      : []),
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
    const hinging = supply.hinges
      .filter((hinge) => hinge.flightId === flightId)
      .map((hinge) => supply.sorties.find((sortie) => sortie.sortieId === hinge.sortieId)?.name ?? hinge.sortieId);
    return [
      text(flightName(view.plan, flightId)),
      instant(flight?.departAt ?? null),
      instant(flight?.arriveAt ?? null),
      slacks.length > 0 ? spanDays(Math.min(...slacks)) : text("any"),
      at === null ? text(`after ${formatDate(view.plan.horizonAt)}`) : instant(at),
      text(hinging.join(", ")),
    ];
  });
  return [
    {
      kind: "table",
      id: "flights",
      caption: "Flights: by how much each alone may slip with every status kept, and what hinges on it.",
      columns: [
        wordColumn("Flight", 2),
        wordColumn("Departs", 1.4),
        wordColumn("Arrives", 1.4),
        figureColumn("May slip", "days", 1),
        wordColumn("Leaves at the latest", 1.6),
        wordColumn("Hinges on it", 2.4),
      ],
      rows,
    },
  ];
};
