/** The sortie stage by stage: what each weighs, loads and burns, and what becomes of it. Nothing where there is but one. */
import type { SortieSheet } from "../../../app/sortie/sheet.ts";
import type { StageSheet } from "../../../app/sortie/stage-sheet.ts";
import { massFigure } from "../../format/mass.ts";
import { formatNumber } from "../../format/number.ts";
import type { Column } from "../../widgets/data-table/column.ts";
import { DataTable } from "../../widgets/data-table/data-table.tsx";

const mass = (id: string, heading: string, kg: (stage: StageSheet) => number): Column<StageSheet> => ({
  id,
  heading,
  unit: "t",
  isNumber: true,
  value: (stage) => kg(stage) / 1000,
  text: (stage) => massFigure(kg(stage), "t"),
});

const figure = (
  id: string,
  heading: string,
  unit: string,
  value: (stage: StageSheet) => number,
): Column<StageSheet> => ({
  id,
  heading,
  ...(unit === "" ? {} : { unit }),
  isNumber: true,
  value: (stage) => (stage.engines.length === 0 ? null : value(stage)),
  text: (stage) => (stage.engines.length === 0 ? "–" : formatNumber(value(stage))),
});

const columns: readonly Column<StageSheet>[] = [
  { id: "stage", heading: "Stage", value: ({ name }) => name ?? "the lander", isWide: true },
  mass("dry", "Dry", ({ dryKg }) => dryKg),
  mass("load", "Load", ({ loadKg }) => loadKg),
  mass("left", "Left in it", ({ lines }) => lines.reduce((sum, { leftKg }) => sum + leftKg, 0)),
  figure("deltaV", "Δv", "m/s", ({ deltaVMPerS }) => deltaVMPerS),
  figure("ignitions", "Ignitions", "", ({ ignitions }) => ignitions),
  figure("burn", "Burn", "s", ({ burnSeconds }) => burnSeconds),
  { id: "fate", heading: "Then", value: ({ fate }) => fate },
];

export const StageTable = ({ sheet }: { sheet: SortieSheet }) =>
  sheet.stages.length < 2 ? null : (
    <DataTable
      caption="Stages"
      columns={columns}
      rows={sheet.stages}
      rowId={({ name }) => name ?? ""}
      empty="One stage."
    />
  );
