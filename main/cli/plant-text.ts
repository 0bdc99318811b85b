/** What a plant makes, and the flights of its loads, as text. */
import { formatMass } from "../../app/format/mass.ts";
import { formatNumber } from "../../app/format/number.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Entity } from "../../app/entity/entities.ts";
import type { WaterPlant } from "../../app/entity/water-plant.ts";
import { formatMinute } from "../../app/format/time.ts";
import type { PlantOutput } from "../../app/plant/water-plant.ts";
import { textTable } from "./text-table.ts";
import { nameIn } from "../../app/words/named.ts";

const row = (name: string, value: number, unit: string, note = ""): readonly string[] => [
  name,
  formatNumber(value, 1),
  unit,
  note,
];

export const plantText = (name: string, plant: WaterPlant, day: PlantOutput, days: number): string => {
  const rows = [
    row("Water", plant.waterKgPerDay, "kg/day", `${formatNumber(100 * plant.recoveryFraction, 1)} % recovered`),
    row(
      "In pairs",
      day.propellantKg,
      "kg/day",
      `oxygen to hydrogen ${formatNumber(plant.mixtureRatio, 2)}; ${day.limitedBy} sets the amount`,
    ),
    row("  hydrogen", day.propellantHydrogenKg, "kg/day"),
    row("  oxygen", day.propellantOxygenKg, "kg/day"),
    row("Oxygen left over", day.oxygenSurplusKg, "kg/day"),
    row("  breathed", day.breathedKg, "kg/day", `${plant.persons} persons`),
    row(
      "  fuel cells",
      day.fuelCellOxygenKg,
      "kg/day",
      `with ${formatNumber(day.fuelCellHydrogenKg, 1)} kg of hydrogen; ${formatNumber(day.fuelCellWaterKg, 1)} kg of water is split again`,
    ),
    row("  vented", day.oxygenVentedKg, "kg/day"),
    row("Hydrogen vented", day.hydrogenVentedKg, "kg/day"),
    row("Electrolysis", day.electrolysisKWh, "kWh/day"),
    row("Liquefaction", day.liquefactionKWh, "kWh/day", "only what goes to engines"),
    row("Power", day.powerKW, "kW", "around the clock"),
  ];
  const columns = [
    { title: name, align: "start" },
    { title: "A day", align: "end" },
    { title: "", align: "start" },
    { title: "", align: "start" },
  ] as const;
  const missing =
    day.oxygenMissingKg > 0
      ? [`For breathing and fuel cells ${formatNumber(day.oxygenMissingKg, 1)} kg of oxygen a day is missing.`]
      : [];
  return [
    textTable(columns, rows),
    `On duty for ${formatNumber(days, 1)} days of this plan: ${formatMass(days * day.propellantKg)} of pairs.`,
    ...missing,
    ...day.cautions,
  ].join("\n");
};

/** `flights` in order of time. */
export const readyText = (
  plan: PlanSnapshot,
  craftName: string,
  depotName: string,
  flights: readonly Entity<"flight">[],
): string => {
  if (flights.length === 0)
    return `No full load of ${craftName} gets ready in time to arrive before the end of the plan.`;
  const ids = flights[0]?.loads.map(({ propellantId }) => propellantId) ?? [];
  const columns = [
    ...["Load", "Departs", "Arrives"].map((title) => ({ title, align: "start" as const })),
    ...ids.map((id) => ({
      title: `${nameIn(plan.propellants, id)} kg`,
      align: "end" as const,
    })),
  ];
  const rows = flights.map(({ name, departAt, arriveAt, loads }) => [
    name,
    formatMinute(departAt),
    formatMinute(arriveAt),
    ...loads.map(({ loadedKg }) => formatNumber(loadedKg, 1)),
  ]);
  return `Ready loads with ${craftName} to ${depotName}; nothing is written\n${textTable(columns, rows)}`;
};
