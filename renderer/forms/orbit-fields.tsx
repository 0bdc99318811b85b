/** A depot's orbit about the Moon as data: from it follow the time of one revolution and how its plane lies. */
import { type Heights, nodeOverGroundDegPerDay, revolutionDays } from "../../app/orbits/orbit.ts";
import type { Depot } from "../../app/entity/depot.ts";
import { formatNumber, withUnit } from "../format/number.ts";
import { Button } from "../widgets/button.tsx";
import { FormSection, StatedRow } from "../widgets/form-row.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import type { Editing } from "../editing/editing.ts";

type Orbit = NonNullable<Depot["lunarOrbit"]>;

const words = "orbit about the Moon";

/** In hours where it is shorter than a day. */
const spanWords = (days: number): string =>
  days < 1 ? withUnit(formatNumber(days * 24, 2), "h") : withUnit(formatNumber(days, 3), "days");

/** What the heights give, beside the time between windows as it is stated. */
const Revolution = ({ edit, heights }: { edit: Editing<Depot>; heights: Heights }) => {
  const { value, isReadOnly } = edit;
  const days = revolutionDays(heights);
  const stated = value.windowPeriodDays;
  // A stated period is rounded: a thousandth of it says that it is another.
  const isOther = stated !== null && Math.abs(stated - days) > 0.001 * days;
  return (
    <>
      <StatedRow label="One revolution">
        {spanWords(days)}
        {isOther && `; windows are stated every ${spanWords(stated)}`}
      </StatedRow>
      {/* When a window is open the orbit does not say: only where that is stated can its period be taken over. */}
      {!isReadOnly && isOther && (
        <Button look="link" onPress={() => edit.change({ windowPeriodDays: days }, "days between windows")}>
          Take it as the time between windows
        </Button>
      )}
    </>
  );
};

export const OrbitFields = ({ edit }: { readonly edit: Editing<Depot> }) => {
  const { isReadOnly, value } = edit;
  const orbit = value.lunarOrbit;
  if (orbit === null)
    return (
      <FormSection title="Orbit about the Moon">
        <p className="form-advice">
          Stated in words only, as a halo orbit must be.{" "}
          {!isReadOnly && (
            <Button
              look="link"
              onPress={() =>
                edit.change(
                  {
                    lunarOrbit: {
                      heights: { periapsisKm: 100, apoapsisKm: 100 },
                      inclinationDeg: 90,
                      nodeDeg: 0,
                      nodeAt: value.windowReferenceAt ?? Date.UTC(2030, 0, 1),
                    },
                  },
                  words,
                )
              }
            >
              State its heights and plane
            </Button>
          )}
        </p>
      </FormSection>
    );
  const put = (patch: Partial<Orbit>): void => edit.change({ lunarOrbit: { ...orbit, ...patch } }, words);
  const height = (label: string, key: keyof Heights, origin: string | null = null) => (
    <NumberField
      label={label}
      unit="km"
      min={1}
      max={200_000}
      value={orbit.heights[key]}
      isReadOnly={isReadOnly}
      origin={origin}
      fault={edit.faultOf(`lunarOrbit.heights.${key}`)}
      onCommit={(km) => put({ heights: { ...orbit.heights, [key]: km } })}
    />
  );
  return (
    <FormSection title="Orbit about the Moon">
      {height("Lowest point", "periapsisKm", "above the mean surface")}
      {height("Highest point", "apoapsisKm")}
      <NumberField
        label="Inclination"
        unit="°"
        min={0}
        max={180}
        value={orbit.inclinationDeg}
        isReadOnly={isReadOnly}
        fault={edit.faultOf("lunarOrbit.inclinationDeg")}
        onCommit={(inclinationDeg) => put({ inclinationDeg })}
      />
      <NumberField
        label="Ascending node"
        unit="°"
        min={-180}
        max={360}
        value={orbit.nodeDeg}
        isReadOnly={isReadOnly}
        origin="longitude on the Moon, east is positive"
        fault={edit.faultOf("lunarOrbit.nodeDeg")}
        onCommit={(nodeDeg) => put({ nodeDeg })}
      />
      <InstantField
        label="Node stands there at"
        value={orbit.nodeAt}
        isReadOnly={isReadOnly}
        fault={edit.faultOf("lunarOrbit.nodeAt")}
        onCommit={(nodeAt) => put({ nodeAt })}
      />
      <StatedRow label="Node moves">
        {withUnit(formatNumber(nodeOverGroundDegPerDay(orbit.heights, orbit.inclinationDeg), 2), "° a day")} over the
        ground
      </StatedRow>
      <Revolution edit={edit} heights={orbit.heights} />
      {!isReadOnly && (
        <Button look="link" onPress={() => edit.change({ lunarOrbit: null }, words)}>
          Leave it to the words
        </Button>
      )}
    </FormSection>
  );
};
