/** The insulation: multilayer by its layers, a flux that somebody states, or none. */
import { insulationMaterials } from "../../../app/storage/insulation-material.ts";
import { DEFAULT_DEGRADATION_FACTOR } from "../../../app/storage/insulation-material.ts";
import type { Insulation, InsulationMaterial } from "../../../app/entity/heat-balance.ts";
import { type Choice, ChoiceField } from "../../widgets/choice-field.tsx";
import { FormSection } from "../../widgets/form-row.tsx";
import { NumberField } from "../../widgets/number-field.tsx";
import { TextField } from "../../widgets/text-field.tsx";
import { freshLayers } from "../../heat/fresh-balance.ts";
import { numberOf, type Part } from "../part.ts";

type Layers = Extract<Insulation, { readonly kind: "layers" }>;
type Flux = Extract<Insulation, { readonly kind: "flux" }>;
type Kind = Insulation["kind"] | "none";

const kinds: readonly Choice<Kind>[] = [
  { id: "layers", name: "multilayer", note: "by the layer-by-layer correlation" },
  { id: "flux", name: "stated flux", note: "measured, or given by the maker" },
  { id: "none", name: "not described", note: "heat through the wall is not counted" },
];

const toKind = (kind: Kind, areaM2: number): Insulation | null => {
  if (kind === "none") return null;
  return kind === "layers" ? freshLayers(areaM2) : { kind: "flux", areaM2, fluxWPerM2: 0.5, note: "" };
};

/** Another pair of reflector and spacer keeps its own name. */
const materialChoices = (used: InsulationMaterial): readonly Choice<string>[] =>
  [...insulationMaterials, ...(insulationMaterials.some(({ name }) => name === used.name) ? [] : [used])].map(
    ({ name, source }) => ({ id: name, name, note: source }),
  );

const LayersFields = ({ part }: { part: Part<Layers> }) => {
  const { value, isReadOnly, commit } = part;
  return (
    <>
      <ChoiceField
        label="Material"
        value={value.material.name}
        choices={materialChoices(value.material)}
        isReadOnly={isReadOnly}
        onCommit={(name) => {
          const material = insulationMaterials.find((each) => each.name === name);
          if (material !== undefined) commit({ ...value, material }, "insulation material");
        }}
      />
      <NumberField {...numberOf(part, "layers", "layers")} label="Layers" unit="" min={1} max={1000} isWhole />
      <NumberField
        {...numberOf(part, "layersPerCm", "layer density")}
        label="Layer density"
        unit="per cm"
        min={0}
        max={500}
        isMinOpen
      />
      <NumberField
        {...numberOf(part, "hotK", "outer temperature")}
        label="Outer side"
        unit="K"
        min={1}
        max={1500}
        step={5}
      />
      <NumberField
        {...numberOf(part, "residualGasTorr", "residual gas")}
        label="Residual gas"
        unit="torr"
        min={0}
        max={10}
        step={0.000001}
        decimals={10}
        origin="1 torr = 133.322 Pa; in good vacuum below 1e-6"
      />
      <NumberField
        {...numberOf(part, "degradationFactor", "degradation factor")}
        label="Degradation factor"
        unit="×"
        min={1}
        max={100}
        step={0.1}
        origin={`seams and installation; ${DEFAULT_DEGRADATION_FACTOR} unless measured (one test found 1.2; up to 4 from memory)`}
      />
    </>
  );
};

const FluxFields = ({ part }: { part: Part<Flux> }) => (
  <>
    <NumberField
      {...numberOf(part, "fluxWPerM2", "flux")}
      label="Flux as installed"
      unit="W/m²"
      min={0}
      max={2000}
      step={0.05}
    />
    <TextField
      label="Source"
      value={part.value.note}
      most={2000}
      isReadOnly={part.isReadOnly}
      placeholder="who measured or states it"
      onCommit={(note) => part.commit({ ...part.value, note }, "source of the flux")}
    />
  </>
);

export const InsulationFields = ({ part }: { part: Part<Insulation | null> }) => {
  const { value } = part;
  const areaM2 = value?.areaM2 ?? 100;
  return (
    <FormSection title="Insulation">
      <ChoiceField
        label="Kind"
        value={value?.kind ?? "none"}
        choices={kinds}
        isReadOnly={part.isReadOnly}
        onCommit={(kind) => part.commit(toKind(kind, areaM2), "kind of insulation")}
      />
      {value !== null && (
        <NumberField
          {...numberOf(part as Part<Insulation>, "areaM2", "insulated area")}
          label="Area"
          unit="m²"
          min={0}
          max={1e6}
          step={1}
        />
      )}
      {value?.kind === "layers" && <LayersFields part={part as Part<Layers>} />}
      {value?.kind === "flux" && <FluxFields part={part as Part<Flux>} />}
    </FormSection>
  );
};
