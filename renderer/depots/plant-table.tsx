/** The plants: what each makes of its water on a day of duty, what is left over, what it takes; and the way into the plan. */
import { useMemo, useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Source } from "../../app/entity/source.ts";
import { freshPlant } from "../../app/plant/fresh-plant.ts";
import { dutyDays } from "../../app/plant/ready-loads.ts";
import { type PlantOutput, plantOutput } from "../../app/plant/water-plant.ts";
import { formatNumber } from "../format/number.ts";
import { AddDialog } from "../forms/add-dialog.tsx";
import { nextName } from "../names/new-id.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { READ_ONLY } from "../widgets/unable.ts";

type Plant = Source & { readonly plant: NonNullable<Source["plant"]> };

interface Row {
  readonly source: Plant;
  readonly day: PlantOutput;
}

const figure = (
  id: string,
  heading: string,
  unit: string,
  value: (row: Row) => number,
  title?: string,
): Column<Row> => ({
  id,
  heading,
  ...(unit === "" ? {} : { unit }),
  isNumber: true,
  value,
  text: (row) => formatNumber(value(row), 1),
  ...(title === undefined ? {} : { title: () => title }),
});

const columnsFor = (plan: PlanSnapshot): readonly Column<Row>[] => [
  { id: "name", heading: "Plant", value: ({ source }) => source.name },
  figure("water", "Water", "kg/day", ({ source }) => source.plant.waterKgPerDay),
  figure("ratio", "O : H", "", ({ source }) => source.plant.mixtureRatio, "oxygen to hydrogen in the engines"),
  figure("hydrogen", "Pairs: H₂", "kg/day", ({ day }) => day.propellantHydrogenKg),
  figure("oxygen", "O₂", "kg/day", ({ day }) => day.propellantOxygenKg),
  figure("left", "O₂ left", "kg/day", ({ day }) => day.oxygenSurplusKg, "what the engines do not take"),
  figure("vented", "vented", "kg/day", ({ day }) => day.oxygenVentedKg),
  figure("power", "Power", "kW", ({ day }) => day.powerKW, "electrolysis and liquefaction, around the clock"),
  {
    ...figure("duty", "Operating", "days", ({ source }) => dutyDays(source.plant.duty, plan.horizonAt)),
    text: ({ source }) => formatNumber(dutyDays(source.plant.duty, plan.horizonAt), 0),
  },
];

export const PlantTable = ({ plan }: { plan: PlanSnapshot }) => {
  const session = useSession();
  const selection = useApp((state) => state.selection);
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const [isAdding, setAdding] = useState(false);
  const columns = useMemo(() => columnsFor(plan), [plan]);
  const rows = useMemo(
    () =>
      plan.sources.flatMap((source): Row[] =>
        source.plant === null ? [] : [{ source: { ...source, plant: source.plant }, day: plantOutput(source.plant) }],
      ),
    [plan.sources],
  );
  const selectedId = selection?.kind === "source" ? selection.id : null;
  const subject = rows.find(({ source }) => source.id === selectedId)?.source ?? rows[0]?.source;
  return (
    <>
      <DataTable
        caption="Plants: propellant from water"
        columns={columns}
        rows={rows}
        rowId={({ source }) => source.id}
        selectedId={selectedId}
        onSelect={({ source }) => session.select({ kind: "source", id: source.id })}
        empty="No plant. A plant is a source that makes hydrogen and oxygen from water; add one to see its pairs, its power and its ready loads."
        tools={
          <>
            <Button look="quiet" unable={isReadOnly ? READ_ONLY : null} onPress={() => setAdding(true)}>
              Add a plant…
            </Button>
            {subject !== undefined && (
              <Button
                look="quiet"
                unable={isReadOnly ? READ_ONLY : null}
                onPress={() => session.openDialog("plan.plantFlights", { subject: { kind: "source", id: subject.id } })}
              >
                Loads into flights…
              </Button>
            )}
          </>
        }
      />
      {isAdding && (
        <AddDialog
          kind="source"
          preset={{
            name: nextName("Plant 0", new Set(plan.sources.map(({ name }) => name))),
            kind: "plant",
            plant: freshPlant(plan.asOfAt, plan.horizonAt),
          }}
          onClose={() => setAdding(false)}
        />
      )}
    </>
  );
};
