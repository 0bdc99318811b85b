/** What follows from a plant's figures: pairs a day, oxygen left over and its fate, power; kept up with every stroke of typing. */
import { useCallback } from "react";
import { PlanningError } from "../../../app/ground/failure.ts";
import { dutyDays } from "../../../app/plant/ready-loads.ts";
import type { WaterPlant } from "../../../app/entity/water-plant.ts";
import { type PlantOutput, plantOutput } from "../../../app/plant/water-plant.ts";
import { formatMass } from "../../format/mass.ts";
import { formatNumber, withUnit } from "../../format/number.ts";
import { Plot } from "../../plot/plot.tsx";
import { StatedRow } from "../../widgets/form-row.tsx";
import { plantHeight, plantPicture, plantWords } from "./plant-picture.ts";

interface PlantResultProps {
  readonly plant: WaterPlant;
  /** Days of duty up to here are counted. */
  readonly untilAt: number;
  /** Not committed yet. */
  readonly isTyped: boolean;
}

const outputOr = (plant: WaterPlant): PlantOutput | string => {
  try {
    return plantOutput(plant);
  } catch (error) {
    if (error instanceof PlanningError) return error.message;
    throw error;
  }
};

const kgPerDay = (kg: number): string => withUnit(formatNumber(kg, 1), "kg/day");

/** What a planner should know, in sentences. */
const remarks = (day: PlantOutput): readonly string[] => {
  const sentences: string[] = [];
  if (day.propellantKg > 0)
    sentences.push(
      day.limitedBy === "hydrogen"
        ? "Hydrogen sets the amount: water holds more oxygen than the engines burn with it."
        : "Oxygen sets the amount: the engines burn more of it than water holds.",
    );
  else sentences.push("It makes no propellant.");
  if (day.oxygenMissingKg > 0)
    sentences.push(
      `For breathing and fuel cells ${formatNumber(day.oxygenMissingKg, 1)} kg of oxygen a day is missing.`,
    );
  if (day.fuelCellWaterKg > 0)
    sentences.push(
      `The fuel cells' ${formatNumber(day.fuelCellWaterKg, 1)} kg of water a day is split again: they cost energy, no pairs.`,
    );
  sentences.push(...day.cautions);
  return sentences;
};

const notes = ["mass in kg a day"];

const Picture = ({ day }: { day: PlantOutput }) => {
  const compose = useCallback((size: { width: number; height: number }) => plantPicture(day, size), [day]);
  return (
    <Plot
      title="What a day of duty makes of water"
      notes={notes}
      height={plantHeight(day)}
      label={`A day's water: ${plantWords(day)}.`}
      compose={compose}
    />
  );
};

export const PlantResult = ({ plant, untilAt, isTyped }: PlantResultProps) => {
  const day = outputOr(plant);
  if (typeof day === "string") {
    return (
      <p className="form-fault" role="alert">
        {day}
      </p>
    );
  }
  const days = dutyDays(plant.duty, untilAt);
  return (
    <>
      <output className="heat-figures figures" data-typed={isTyped || undefined} aria-label="Made on a day of duty">
        <span>{kgPerDay(day.propellantKg)} of pairs</span>
        <span>{withUnit(formatNumber(day.powerKW, 1), "kW")}</span>
      </output>
      <section className="heat-result" aria-label="What a day of duty makes">
        <Picture day={day} />
        <StatedRow
          label="Oxygen left over"
          title="What the engines do not take: breathed, burned in fuel cells, vented."
        >
          <span className="figures">{kgPerDay(day.oxygenSurplusKg)}</span>
        </StatedRow>
        <StatedRow label="Electrolysis">
          <span className="figures">{withUnit(formatNumber(day.electrolysisKWh, 0), "kWh/day")}</span>
        </StatedRow>
        <StatedRow label="Liquefaction" title="Only what goes to engines is liquefied.">
          <span className="figures">{withUnit(formatNumber(day.liquefactionKWh, 0), "kWh/day")}</span>
        </StatedRow>
        <StatedRow label="On duty in this plan">
          <span className="figures">
            {withUnit(formatNumber(days, 0), "days")}: {formatMass(days * day.propellantKg)}
          </span>
        </StatedRow>
        {remarks(day).map((sentence) => (
          <p key={sentence} className="form-advice">
            {sentence}
          </p>
        ))}
      </section>
    </>
  );
};
