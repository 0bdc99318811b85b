/** What the numbers rest on: loss rates, transfers, demands, with their reasons. */
import { wallChilldownKg } from "../../storage/top-up-chilldown.ts";
import { windowSourceWords } from "../../ledger/window-words.ts";
import { formatMass } from "../../format/mass.ts";
import { rateOf } from "../../storage/loss-rate.ts";
import { heatBalanceItems } from "./heat-balance-items.ts";
import { lossForm } from "../../storage/rate-units.ts";
import {
  figureColumn,
  instant,
  mass,
  massColumn,
  nothing,
  number,
  percent,
  spanDays,
  text,
  wordColumn,
} from "../cell.ts";
import type { ReportContext } from "../context.ts";
import type { Block, Cell } from "../model.ts";
import { propellantName, tankName } from "../names.ts";

export const assumptionBlocks = (context: ReportContext): readonly Block[] => {
  const { plan } = context.main.view;
  const rates = plan.lossPeriods.map((period): readonly Cell[] => {
    const rate = rateOf(period.basis);
    return [
      text(tankName(plan, period.tankId)),
      instant(period.fromAt),
      instant(period.untilAt),
      rate.kPerDay === 0 ? nothing : percent(100 * -Math.expm1(-rate.kPerDay), 4),
      rate.cKgPerDay === 0 ? nothing : number(rate.cKgPerDay, 2),
      text(lossForm(rate)),
      text(period.basis.kind),
      text(period.note === "" ? period.reason : `${period.reason}: ${period.note}`),
    ];
  });
  const transfers = plan.craftClasses.flatMap((craftClass) =>
    craftClass.propellants.map((line): readonly Cell[] => [
      text(craftClass.name),
      text(propellantName(plan, line.propellantId)),
      mass(line.loadKg),
      percent(100 * -Math.expm1(-line.kPerDay), 4),
      number(line.chilldownKg, 1),
      line.wall === undefined
        ? nothing
        : number(wallChilldownKg(line, plan.propellants.find(({ id }) => id === line.propellantId)?.fluid ?? null), 1),
      percent(100 * line.lossFraction, 2),
      number(line.residualKg, 1),
    ]),
  );
  const classes = plan.craftClasses
    .filter(({ role }) => role === "tanker")
    .map((craftClass): readonly Cell[] => [
      text(craftClass.name),
      spanDays(craftClass.tripDays, 1),
      spanDays(craftClass.berthDays, 1),
      spanDays(craftClass.turnaroundDays, 1),
      craftClass.costPerFlight === null ? nothing : number(craftClass.costPerFlight, 2),
      text(craftClass.costUnit),
    ]);
  const heat = heatBalanceItems(context);
  return [
    {
      kind: "list",
      items: [
        `A sortie that cannot be loaded ${plan.planCase.shortPolicy === "wait" ? "waits for the next departure window at which it can, at most its campaign's hold limit" : "stands down"}.`,
        ...plan.depots
          .filter(({ windowList }) => windowList !== null)
          .map((depot) => `${depot.name}: ${windowSourceWords(depot)}.`),
        ...plan.tanks
          .filter((tank) => tank.ownerKind === "depot")
          .map(
            (tank) =>
              `${tank.name}: ${formatMass(tank.maximumFillKg)} maximum fill, ${formatMass(tank.reserveKg)} reserve, ${formatMass(tank.heelKg)} heel.`,
          ),
      ],
    },
    {
      kind: "table",
      id: "loss-rates",
      caption:
        "Loss rates. Compounding: r % a day leaves (1 − r/100)^n after n days. Constant: the same mass every day, whatever is left.",
      columns: [
        wordColumn("Tank", 1.6),
        wordColumn("From", 1.3),
        wordColumn("To", 1.3),
        figureColumn("Proportional loss", "%/day", 1.1),
        figureColumn("Constant loss", "kg/day", 1),
        wordColumn("Form", 1.2),
        wordColumn("Basis", 1),
        wordColumn("Reason", 2.3),
      ],
      rows: rates,
    },
    ...(heat.length === 0 ? [] : [{ kind: "list", items: heat } as const]),
    {
      kind: "table",
      id: "craft",
      caption: "Craft: usual load, loss on the way or docked, losses of a transfer.",
      columns: [
        wordColumn("Class", 1.5),
        wordColumn("Propellant", 1.5),
        massColumn("Load", 1.1),
        figureColumn("Proportional loss", "%/day", 1),
        figureColumn("Line chilldown", "kg", 1.1),
        figureColumn("Tank chilldown", "kg", 1.1),
        figureColumn("Transfer loss", "%", 1),
        figureColumn("Residual", "kg", 1.1),
      ],
      rows: transfers,
    },
    {
      kind: "table",
      id: "tanker-classes",
      caption:
        "Tankers: usual times of a flight, and the least time from leaving the port to the hull's next departure.",
      columns: [
        wordColumn("Class", 2),
        figureColumn("Transit", "days", 1),
        figureColumn("At the port", "days", 1),
        figureColumn("Turnaround", "days", 1),
        figureColumn("Cost per flight", null, 1.2),
        wordColumn("Cost unit", 1),
      ],
      rows: classes,
    },
  ];
};
