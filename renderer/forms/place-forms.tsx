/** Propellants, sources and depots. */
import type { Editing, FormProps } from "../editing/editing.ts";
import type { Depot } from "../../app/entity/depot.ts";
import type { Propellant } from "../../app/entity/propellant.ts";
import type { Source } from "../../app/entity/source.ts";
import { DENSITY_ORIGIN, tabledDensity, tabledPropellants } from "../names/tabled-propellants.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { figure } from "../widgets/number-text.ts";
import { EditNote, EditNumber, EditText } from "../editing/bound-fields.tsx";
import { describedByHand } from "./fresh.ts";
import { OrbitFields } from "./orbit-fields.tsx";
import { WindowFields } from "./window-fields.tsx";
import { PlantFields } from "./plant/plant-fields.tsx";

const fluids = [
  ...tabledPropellants.map(({ fluid, name, symbol }) => ({ id: fluid, name: name.toLowerCase(), note: symbol })),
  { id: "none", name: "none", note: "another propellant: its density is typed" },
] as const;

/** What follows the choice: all of a new one; of one in the plan its table alone, and nothing of its figures. */
const alongTable = (edit: Editing<Propellant>, fluid: Propellant["fluid"]): Partial<Propellant> => {
  if (!edit.isNew) return { fluid };
  const tabled = tabledPropellants.find((row) => row.fluid === fluid);
  return tabled ?? describedByHand;
};

const densityOrigin = ({ fluid, densityKgPerM3 }: Propellant): string | null => {
  if (fluid === null) return null;
  const tabled = tabledDensity(fluid);
  return tabled === densityKgPerM3 ? DENSITY_ORIGIN : `${figure(tabled, 3)}\u202fkg/m³ is ${DENSITY_ORIGIN}`;
};

export const PropellantForm = ({ edit }: FormProps<Propellant>) => (
  <>
    <ChoiceField
      label="Property table"
      value={edit.value.fluid ?? "none"}
      choices={fluids}
      isReadOnly={edit.isReadOnly}
      onCommit={(id) => edit.change(alongTable(edit, id === "none" ? null : id), "property table")}
    />
    <EditText edit={edit} field="name" label="Name" isRequired others={edit.plan.propellants} />
    <EditText edit={edit} field="symbol" label="Symbol" most={8} isRequired />
    <EditNumber
      edit={edit}
      field="densityKgPerM3"
      label="Density as stored"
      unit="kg/m³"
      min={10}
      max={3000}
      origin={densityOrigin(edit.value)}
    />
    <EditNumber
      edit={edit}
      field="position"
      label="Order in lists"
      unit=""
      min={0}
      max={99}
      isWhole
      origin="gives its colour, too"
    />
  </>
);

const sourceKinds = [
  { id: "ground", name: "ground" },
  { id: "plant", name: "production plant", note: "propellant from water" },
] as const;

export const SourceForm = ({ edit }: FormProps<Source>) => (
  <>
    <EditText edit={edit} field="name" label="Name" isRequired others={edit.plan.sources} />
    <ChoiceField
      label="Kind"
      value={edit.value.kind}
      choices={sourceKinds}
      isReadOnly={edit.isReadOnly}
      fault={edit.faultOf("kind")}
      // What ground makes nobody describes; undo brings the plant back.
      onCommit={(kind) => edit.change({ kind, ...(kind === "ground" ? { plant: null } : {}) }, "kind")}
    />
    {edit.value.kind === "plant" && <PlantFields edit={edit} />}
    <EditNote edit={edit} field="note" label="Note" />
  </>
);

export const DepotForm = ({ edit }: FormProps<Depot>) => (
  <>
    <EditText edit={edit} field="name" label="Name" isRequired others={edit.plan.depots} />
    <EditText edit={edit} field="orbit" label="Orbit" most={120} />
    <EditNumber
      edit={edit}
      field="ports"
      label="Ports for tankers"
      unit=""
      min={0}
      max={99}
      isWhole
      origin="landers have a port of their own"
    />
    <OrbitFields edit={edit} />
    <WindowFields edit={edit} />
    <EditNote edit={edit} field="note" label="Note" />
  </>
);
