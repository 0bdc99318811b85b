/** Ways to fly the sortie side by side: every profile of the class, and this one with another engine. */
import { memo, useMemo, useState } from "react";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import type { Lander } from "../../../app/entity/lander.ts";
import type { Mission } from "../../../app/entity/profile.ts";
import { compareWays, type Way, type WayResult } from "../../../app/sortie/ways.ts";
import type { NeededFlights } from "../../../app/ways/needed-flights.ts";
import { againstPlan, neededSentence } from "../../../app/ways/needed-words.ts";
import { formatMass, massFigure } from "../../format/mass.ts";
import { formatNumber, formatSigned } from "../../format/number.ts";
import { ChoiceField } from "../../widgets/choice-field.tsx";
import type { Column } from "../../widgets/data-table/column.ts";
import { DataTable } from "../../widgets/data-table/data-table.tsx";
import { NumberField } from "../../widgets/number-field.tsx";
import { RunPart } from "../../widgets/run-part.tsx";
import { type NeededByWay, useNeededFlights } from "./use-needed-flights.ts";

interface WayTableProps {
  readonly plan: PlanSnapshot;
  readonly lander: Lander;
  readonly profiles: readonly Entity<"profile">[];
  readonly shown: Entity<"profile">;
  readonly mission: Mission;
}

/** Every profile as it is, and the shown one with another mixture ratio or number of engines, where asked for. */
const waysOf = (
  lander: Lander,
  profiles: readonly Entity<"profile">[],
  shown: Entity<"profile">,
  ratio: number | null,
  engines: number | null,
): Way[] => {
  const withEngines = (patch: Partial<Lander["engines"]>): Lander => ({
    ...lander,
    engines: { ...lander.engines, ...patch },
  });
  const all = [shown, ...profiles.filter(({ id }) => id !== shown.id)];
  const asTheyAre = all.map((profile): Way => ({ name: profile.name, lander, profile }));
  const leaner =
    ratio === null
      ? []
      : [
          {
            name: `${shown.name}, mixture ratio ${formatNumber(ratio, 1)}`,
            lander: withEngines({ mixtureRatio: ratio }),
            profile: shown,
          },
        ];
  const other =
    engines === null
      ? []
      : [
          {
            name: `${shown.name}, ${formatNumber(engines)} engines`,
            lander: withEngines({ count: engines }),
            profile: shown,
          },
        ];
  return [...asTheyAre, ...leaner, ...other];
};

/** Columns of what the forecast found; "…" while it is looking. */
const neededColumns = (needed: NeededByWay): Column<WayResult>[] => {
  const look = (
    column: Pick<Column<WayResult>, "id" | "heading" | "unit" | "isNumber">,
    value: (found: NeededFlights) => string | number | null,
    text: (found: NeededFlights) => string,
  ): Column<WayResult> => ({
    ...column,
    value: (way) => {
      const found = needed.get(way.name);
      return found === undefined ? null : value(found);
    },
    text: (way) => {
      const found = needed.get(way.name);
      return found !== undefined ? text(found) : way.sheet === null ? "–" : "…";
    },
  });
  return [
    look(
      { id: "flights", heading: "Tanker flights", isNumber: true },
      (found) => (found.unmet === null ? found.flights : null),
      (found) => (found.unmet === null ? formatNumber(found.flights) : "–"),
    ),
    look({ id: "against", heading: "vs plan" }, againstPlan, againstPlan),
    look(
      { id: "delivered", heading: "Delivered", unit: "t", isNumber: true },
      (found) => (found.unmet === null ? found.deliveredKg / 1000 : null),
      (found) => (found.unmet === null ? massFigure(found.deliveredKg, "t", 1) : "–"),
    ),
    look(
      { id: "boiled", heading: "Boils off", unit: "t", isNumber: true },
      (found) => (found.unmet === null ? found.boiledOffKg / 1000 : null),
      (found) => (found.unmet === null ? massFigure(found.boiledOffKg, "t", 1) : "–"),
    ),
  ];
};

const columnsOf = (plan: PlanSnapshot, lander: Lander, needed: NeededByWay): Column<WayResult>[] => [
  { id: "name", heading: "Way", value: (way) => way.name, isWide: true, title: (way) => way.refusal ?? undefined },
  ...lander.tanks.map(({ propellantId }): Column<WayResult> => {
    const load = (way: WayResult) => way.demand.find((line) => line.propellantId === propellantId)?.loadKg ?? null;
    // In the unit of the heading, for it goes out as it is when the table is copied.
    const tonnes = (way: WayResult): number | null => {
      const kg = load(way);
      return kg === null ? null : kg / 1000;
    };
    return {
      id: propellantId,
      heading: plan.propellants.find(({ id }) => id === propellantId)?.symbol ?? propellantId,
      unit: "t",
      isNumber: true,
      value: tonnes,
      text: (way) => (load(way) === null ? "" : massFigure(load(way) ?? 0, "t")),
    };
  }),
  {
    id: "saving",
    heading: "Saves",
    unit: "t",
    isNumber: true,
    value: (way) => (way.sheet ? way.savingKg / 1000 : null),
    text: (way) => (way.sheet ? formatSigned(way.savingKg / 1000, 2) : ""),
  },
  ...neededColumns(needed),
  {
    id: "findings",
    heading: "Findings",
    value: (way) => way.sheet?.findings.length ?? null,
    text: (way) => way.refusal ?? String(way.sheet?.findings.length ?? ""),
  },
];

/** "each with 1 t down, 100 kg up and 2 persons". */
const missionWords = ({ cargoDownKg, cargoUpKg, crew }: Mission): string =>
  `each with ${formatMass(cargoDownKg)} down, ${formatMass(cargoUpKg)} up and ${crew === 1 ? "1 person" : `${String(crew)} persons`}`;

const Ways = ({ plan, lander, profiles, shown, mission }: WayTableProps) => {
  const tankers = plan.craftClasses.filter(({ role }) => role === "tanker");
  const [tankerId, setTankerId] = useState<string | null>(null);
  const [ratio, setRatio] = useState<number | null>(null);
  const [engines, setEngines] = useState<number | null>(null);
  const tanker = tankers.find(({ id }) => id === tankerId) ?? tankers[0];
  const ways = useMemo(
    () => compareWays(waysOf(lander, profiles, shown, ratio, engines), mission, plan.propellants),
    [lander, profiles, shown, ratio, engines, mission, plan.propellants],
  );
  const { needed, run, failure, again } = useNeededFlights(plan, shown.classId, ways, tanker);
  const landers = new Set(plan.craft.filter(({ classId }) => classId === shown.classId).map(({ id }) => id));
  const planned = plan.sorties.filter(({ status, landerId }) => status === "planned" && landers.has(landerId)).length;
  return (
    <section className="way-table">
      <DataTable
        caption={`Ways to fly ${planned === 1 ? "the planned sortie" : `all ${String(planned)} planned sorties`}, ${missionWords(mission)}`}
        columns={columnsOf(plan, lander, needed)}
        rows={ways}
        rowId={(way) => way.name}
        empty="No profile."
      />
      {tanker !== undefined && (
        <div className="way-needed" aria-live="polite">
          <p>
            Flights so that every sortie is supplied with its reserve kept, by the forecast with boil-off, handover,
            maximum fill and ports: planned ones left out, or flights of {tanker.name} added with the usual load. Hulls
            and their turnaround are not considered.
          </p>
          <RunPart question={{ run, failure, again }} words="Looking for the flights each way needs" />
          <ul>
            {ways.flatMap(({ name }) => {
              const found = needed.get(name);
              return found === undefined
                ? []
                : [
                    <li key={name}>
                      {name}: {neededSentence(plan, found, tanker.name)}
                    </li>,
                  ];
            })}
          </ul>
        </div>
      )}
      <div className="way-fields">
        {tanker !== undefined && (
          <ChoiceField
            label="Flights of"
            value={tanker.id}
            choices={tankers.map(({ id, name }) => ({ id, name }))}
            onCommit={setTankerId}
          />
        )}
        <NumberField
          label="Other mixture ratio"
          unit=""
          min={0}
          isMinOpen
          max={100}
          step={0.1}
          value={ratio}
          placeholder="–"
          onCommit={setRatio}
          onClear={() => setRatio(null)}
        />
        <NumberField
          label="Other engine count"
          unit=""
          min={1}
          max={20}
          isWhole
          value={engines}
          placeholder="–"
          onCommit={setEngines}
          onClear={() => setEngines(null)}
        />
      </div>
    </section>
  );
};

/** Computes every way anew, so it is only shown again when something it shows changes. */
export const WayTable = memo(Ways);
