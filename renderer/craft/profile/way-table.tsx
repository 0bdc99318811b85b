/** Ways to fly the sortie side by side: every profile of the class, and this one with another engine. */
import { memo, useState } from "react";
import type { PlanSnapshot } from "../../../app/forecast/plan.ts";
import type { Entity } from "../../../app/ledger/entities.ts";
import type { Lander } from "../../../app/sortie/lander.ts";
import type { Mission } from "../../../app/sortie/profile.ts";
import { compareWays, type Delivery, type Way, type WayResult } from "../../../app/sortie/ways.ts";
import { formatNumber, formatSigned } from "../../format/number.ts";
import { ChoiceField } from "../../widgets/choice-field.tsx";
import type { Column } from "../../widgets/data-table/column.ts";
import { DataTable } from "../../widgets/data-table/data-table.tsx";
import { NumberField } from "../../widgets/number-field.tsx";

interface WayTableProps {
  readonly plan: PlanSnapshot;
  readonly lander: Lander;
  readonly profiles: readonly Entity<"profile">[];
  readonly shown: Entity<"profile">;
  readonly mission: Mission;
}

/** A tanker's usual load less what stays aboard, and less what the handover loses. */
const deliveryOf = (tanker: Entity<"craftClass"> | undefined): Delivery =>
  (tanker?.propellants ?? []).map((line) => ({
    propellantId: line.propellantId,
    deliveredKg: Math.max(0, (line.loadKg - line.residualKg - line.chilldownKg) * (1 - line.lossFraction)),
  }));

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

const columnsOf = (plan: PlanSnapshot, lander: Lander): Column<WayResult>[] => [
  { id: "name", heading: "Way", value: (way) => way.name, isWide: true, title: (way) => way.refusal ?? undefined },
  ...lander.tanks.map(({ propellantId }): Column<WayResult> => {
    const load = (way: WayResult) => way.demand.find((line) => line.propellantId === propellantId)?.loadKg ?? null;
    return {
      id: propellantId,
      heading: plan.propellants.find(({ id }) => id === propellantId)?.symbol ?? propellantId,
      unit: "kg",
      isNumber: true,
      value: load,
      text: (way) => (load(way) === null ? "" : formatNumber(load(way) ?? 0)),
    };
  }),
  {
    id: "saving",
    heading: "Saves",
    unit: "kg",
    isNumber: true,
    value: (way) => (way.sheet ? way.savingKg : null),
    text: (way) => (way.sheet ? formatSigned(way.savingKg) : ""),
  },
  {
    id: "flights",
    heading: "Tanker flights",
    isNumber: true,
    value: (way) => way.tankerFlights,
    text: (way) => (way.tankerFlights === null ? "–" : formatNumber(way.tankerFlights)),
  },
  {
    id: "findings",
    heading: "Findings",
    value: (way) => way.sheet?.findings.length ?? null,
    text: (way) => way.refusal ?? String(way.sheet?.findings.length ?? ""),
  },
];

const Ways = ({ plan, lander, profiles, shown, mission }: WayTableProps) => {
  const tankers = plan.craftClasses.filter(({ role }) => role === "tanker");
  const [tankerId, setTankerId] = useState<string | null>(null);
  const [ratio, setRatio] = useState<number | null>(null);
  const [engines, setEngines] = useState<number | null>(null);
  const tanker = tankers.find(({ id }) => id === tankerId) ?? tankers[0];
  const planned = plan.sorties.filter(({ status }) => status === "planned").length;
  const rows = compareWays(waysOf(lander, profiles, shown, ratio, engines), mission, plan.propellants, {
    sorties: planned,
    delivery: deliveryOf(tanker),
  });
  return (
    <section className="way-table">
      <DataTable
        caption={`Ways to fly it, for ${String(planned)} planned sorties`}
        columns={columnsOf(plan, lander)}
        rows={rows}
        rowId={(way) => way.name}
        empty="No profile."
      />
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
          label="Also with mixture ratio"
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
          label="Also with engines"
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
