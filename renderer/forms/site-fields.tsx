/** Where a profile lands, and the low orbit that it is reached from: what the plane costs hangs on these. */
import type { Landing } from "../../app/sortie/landing.ts";
import type { Profile } from "../../app/entity/profile.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { TextField } from "../widgets/text-field.tsx";
import type { Editing } from "../editing/editing.ts";

const fresh: Landing = {
  site: "Landing site",
  latitudeDeg: -85,
  longitudeDeg: 0,
  orbitKm: 100,
  inclinationDeg: 90,
  passes: "south",
  landsAfterPassDays: 0,
  dogLegLimitDeg: 2,
};

export const SiteFields = ({ edit }: { readonly edit: Editing<Profile> }) => {
  const { isReadOnly } = edit;
  const where = edit.value.landing;
  const put = (patch: Partial<Landing>): void =>
    edit.change({ landing: { ...(where ?? fresh), ...patch } }, "landing site");
  const number = (
    label: string,
    unit: string,
    key: "latitudeDeg" | "longitudeDeg" | "orbitKm" | "inclinationDeg" | "landsAfterPassDays" | "dogLegLimitDeg",
    [min, max]: readonly [number, number],
    origin: string | null = null,
  ) => (
    <NumberField
      label={label}
      unit={unit}
      min={min}
      max={max}
      value={(where ?? fresh)[key]}
      isReadOnly={isReadOnly}
      origin={origin}
      fault={edit.faultOf(`landing.${key}`)}
      onCommit={(value) => put({ [key]: value })}
    />
  );
  return (
    <FormSection title="Landing site and plane">
      {where === null ? (
        <p className="form-advice">
          No site is stated, so nothing is added for the plane.{" "}
          {!isReadOnly && (
            <Button look="link" onPress={() => put({})}>
              State a site
            </Button>
          )}
        </p>
      ) : (
        <>
          <TextField
            label="Site"
            most={80}
            isRequired
            value={where.site}
            isReadOnly={isReadOnly}
            onCommit={(site) => put({ site })}
          />
          {number("Latitude", "°", "latitudeDeg", [-90, 90], "north is positive")}
          {number("Longitude", "°", "longitudeDeg", [-180, 360], "east is positive")}
          {number("Low orbit", "km", "orbitKm", [5, 1000], "circular")}
          {number("Inclination", "°", "inclinationDeg", [0, 180], "of the low orbit")}
          <ChoiceField
            label="Passes the site"
            value={where.passes}
            choices={[
              { id: "north", name: "going north" },
              { id: "south", name: "going south" },
            ]}
            isReadOnly={isReadOnly}
            onCommit={(passes) => put({ passes })}
          />
          {number("Lands after the pass", "days", "landsAfterPassDays", [-30, 30], "0: in the plane")}
          {number("Dog-leg at most", "°", "dogLegLimitDeg", [0, 10], "beyond it the plane is turned in orbit")}
          {!isReadOnly && (
            <Button look="link" onPress={() => edit.change({ landing: null }, "landing site")}>
              Remove the site
            </Button>
          )}
        </>
      )}
    </FormSection>
  );
};
