/** `plant`: what a plant makes of its water on a day of duty, and when its loads are ready. Nothing is written. */
import { PlanningError } from "../../../app/ground/failure.ts";
import type { PlanView } from "../../../app/ledger/ledger-view.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import { flightsFromPlant } from "../../../app/plant/plant-plan.ts";
import { dutyDays } from "../../../app/plant/ready-loads.ts";
import { plantOutput } from "../../../app/plant/water-plant.ts";
import { chooseCase } from "../choose-case.ts";
import { type CliCommand, ledgerPath, optionText } from "../cli-command.ts";
import { plantText, readyText } from "../plant-text.ts";

type Options = Readonly<Record<string, unknown>>;

/** By name or id; with none named, the only one there is. Throws "not found" with what there is. */
const chooseRow = <R extends { readonly id: string; readonly name: string }>(
  rows: readonly R[],
  wanted: string | undefined,
  what: string,
  field: string,
): R => {
  const found = wanted === undefined ? rows : rows.filter(({ id, name }) => id === wanted || name === wanted);
  const [only] = found;
  if (only !== undefined && found.length === 1) return only;
  const names = rows.length === 0 ? "There is none." : `There are: ${rows.map(({ name }) => name).join(", ")}.`;
  throw new PlanningError(
    "not found",
    wanted === undefined ? `Say which ${what}. ${names}` : `There is no ${what} "${wanted}". ${names}`,
    field,
  );
};

/** Flights that the plant's loads would make; none asked for without a tanker. */
const flightsOf = (view: PlanView, source: Entity<"source">, options: Options) => {
  const tanker = optionText(options, "tanker");
  if (tanker === undefined) return null;
  const craft = chooseRow(view.plan.craft, tanker, "craft", "--tanker");
  const depot = chooseRow(view.plan.depots, optionText(options, "to"), "depot", "--to");
  return { craft, depot, flights: flightsFromPlant(view.plan, { source, craftId: craft.id, depotId: depot.id }) };
};

export const plantCommand = {
  name: "plant",
  summary: "Print what a plant makes from water: pairs, oxygen left over, power, and when its loads are ready",
  examples: [{ line: "plant tarn.coldstock", does: "the only plant" }],
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .argument("[source]", "the plant by name or id (default: the only one)")
      .option("--case <name>", "plan case by name or id (default: the first)")
      .option("--tanker <name>", "list the flights that its loads would make with this tanker")
      .option("--to <depot>", "where they would go (default: the only depot)");
  },
  act: async (host, given, options) => {
    const ledger = await host.ask("ledger.open", { path: ledgerPath(given) });
    const view = await host.ask("plan.view", { planCaseId: chooseCase(ledger, optionText(options, "case")).id });
    const described = view.plan.sources.filter(({ plant }) => plant !== null);
    const source = chooseRow(described, given[1], "source described as a plant", "source");
    const plant = source.plant;
    if (plant === null) throw new PlanningError("defect", "A plant without its description.");
    const day = plantOutput(plant);
    const days = dutyDays(plant.duty, view.plan.horizonAt);
    const ready = flightsOf(view, source, options);
    const parts = [plantText(source.name, plant, day, days)];
    if (ready !== null) parts.push(readyText(view.plan, ready.craft.name, ready.depot.name, ready.flights));
    return {
      // A plant that cannot cover the oxygen asked of it does not hold what the plan rests on.
      holds: day.oxygenMissingKg === 0,
      json: { ledger: ledger.path, sourceId: source.id, plant, day, dutyDays: days, flights: ready?.flights ?? null },
      text: parts.join("\n\n"),
    };
  },
} satisfies CliCommand;
