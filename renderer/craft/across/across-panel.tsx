/** Ways across vehicles: what each class of lander by each of its profiles takes from the ground, and the break-even of two. */
import { useCallback, useMemo, useState } from "react";
import type { Entity } from "../../../app/entity/entities.ts";
import { movesMost } from "../../../app/ways/break-even.ts";
import { breakEvenSentence, liftedNotes, movesMostSentence } from "../../../app/ways/lifted-words.ts";
import { depotWaiting } from "../../../app/ways/depot-waiting.ts";
import { flownWay, usualMission } from "../../../app/ways/usual-mission.ts";
import { vehicleWays } from "../../../app/ways/vehicle-way.ts";
import { type WayAcross, waysAcross } from "../../../app/ways/ways-across.ts";
import { formatMass, massFigure } from "../../format/mass.ts";
import { formatNumber } from "../../format/number.ts";
import { commonCostUnit } from "../../names/cost-unit.ts";
import { Plot } from "../../plot/plot.tsx";
import type { CaseForecast } from "../../state/case-forecast.ts";
import { ChoiceField } from "../../widgets/choice-field.tsx";
import type { Column } from "../../widgets/data-table/column.ts";
import { DataTable } from "../../widgets/data-table/data-table.tsx";
import { NumberField } from "../../widgets/number-field.tsx";
import { acrossPicture, type AcrossShown } from "./across-picture.ts";
import "./across.css";

interface AcrossPanelProps {
  readonly current: CaseForecast;
  readonly craftClass: Entity<"craftClass">;
}

const mass = (id: string, heading: string, kg: (way: WayAcross) => number | null): Column<WayAcross> => ({
  id,
  heading,
  unit: "t",
  isNumber: true,
  value: (way) => {
    const figure = kg(way);
    return figure === null ? null : figure / 1000;
  },
  text: (way) => {
    const figure = kg(way);
    return figure === null ? "" : massFigure(figure, "t", 1);
  },
});

const count = (id: string, heading: string, figure: (way: WayAcross) => number | null): Column<WayAcross> => ({
  id,
  heading,
  isNumber: true,
  value: figure,
  text: (way) => {
    const value = figure(way);
    return value === null ? "–" : formatNumber(value);
  },
});

const columnsOf = (sorties: number, costUnit: string): Column<WayAcross>[] => [
  { id: "way", heading: "Way", value: ({ way }) => way.name, isWide: true },
  mass("propellant", "Propellant", ({ lifted }) => lifted?.each.propellantKg ?? null),
  mass("lost", "On the way", ({ lifted }) => lifted?.each.onTheWayKg ?? null),
  mass("depot", "At the depot", ({ lifted }) => lifted?.each.atDepotKg ?? null),
  mass("hardware", "Hardware", ({ lifted }) => (lifted ? lifted.each.craftKg + lifted.each.carrierKg : null)),
  mass("each", "Each sortie", ({ lifted }) => lifted?.each.totalKg ?? null),
  mass("first", "The first", ({ lifted }) => lifted?.first.totalKg ?? null),
  mass("all", `All ${formatNumber(sorties)}`, ({ campaign }) => campaign?.totalKg ?? null),
  count("tankers", "Tanker flights", ({ campaign }) => campaign?.tankerFlights ?? null),
  count("craft", "New craft", ({ campaign }) => campaign?.newCraft ?? null),
  {
    ...count("cost", "Cost", ({ campaign }) => campaign?.cost ?? null),
    ...(costUnit === "" ? {} : { unit: costUnit }),
  },
  {
    id: "findings",
    heading: "Findings",
    value: ({ lifted }) => lifted?.sheet.findings.length ?? null,
    text: ({ lifted, refusal }) => refusal ?? String(lifted?.sheet.findings.length ?? ""),
  },
];

export const AcrossPanel = ({ current, craftClass }: AcrossPanelProps) => {
  const { plan } = current;
  const tankers = plan.craftClasses.filter(({ role }) => role === "tanker");
  const planned = plan.sorties.filter(({ status }) => status === "planned").length;
  const [tankerId, setTankerId] = useState<string | null>(null);
  const [asked, setSorties] = useState<number | null>(null);
  const [days, setDays] = useState<number | null>(null);
  const [referenceId, setReferenceId] = useState<string | null>(null);
  const [otherId, setOtherId] = useState<string | null>(null);
  const sorties = asked ?? Math.max(1, planned);
  const ways = useMemo(() => vehicleWays(plan), [plan]);
  const by = useMemo(() => {
    const classes = plan.craftClasses.filter(({ role }) => role === "tanker");
    const tanker = classes.find(({ id }) => id === tankerId) ?? classes[0];
    if (tanker === undefined) return null;
    const waiting = depotWaiting(plan, days);
    return { tanker, mission: usualMission(plan), propellants: plan.propellants, waiting };
  }, [plan, tankerId, days]);
  const flown = flownWay(plan, ways);
  const ofClass =
    flown?.craftClass.id === craftClass.id ? flown : ways.find((way) => way.craftClass.id === craftClass.id);
  const usual = ofClass?.id ?? null;
  const across = useMemo(
    () => (by === null ? null : waysAcross(ways, by, sorties, referenceId ?? usual)),
    [ways, by, sorties, referenceId, usual],
  );
  const reference = across?.reference ?? null;
  const others = (across?.ways ?? []).filter(({ against }) => against !== null);
  const other =
    others.find(({ way }) => way.id === otherId) ??
    others.find(({ way }) => way.craftClass.id !== reference?.way.craftClass.id) ??
    others[0];
  const shown = useMemo((): AcrossShown | null => {
    if (by === null || reference === null || !other?.lifted || !other.against) return null;
    const { lifted: b, against: found } = other;
    const moved = found.kind === "at" ? movesMost(reference.way, b.way, by) : [];
    return { a: reference, b, found, moved, sorties, massUnit: "t" };
  }, [by, reference, other, sorties]);
  const compose = useCallback(
    (size: { width: number; height: number }) =>
      shown === null ? { ...size, groups: [] } : acrossPicture(shown, size),
    [shown],
  );
  if (ways.length === 0 || by === null || across === null)
    return (
      <p className="form-advice">
        {by === null
          ? "There is no class of tanker, so nothing fills a depot."
          : "No class of lander has a description and a profile, so there is nothing to compare."}
      </p>
    );
  const { mission } = by;
  const notes = liftedNotes(by);
  const notCounted = [...new Set(across.ways.flatMap(({ lifted }) => lifted?.notCounted ?? []))];
  const choices = across.ways
    .filter(({ lifted }) => lifted !== null)
    .map(({ way }) => ({ id: way.id, name: way.name }));
  return (
    <section className="across-panel" aria-label="Ways by other vehicles">
      <div className="way-fields">
        <ChoiceField
          label="Brought by"
          value={by.tanker.id}
          choices={tankers.map(({ id, name }) => ({ id, name }))}
          onCommit={setTankerId}
        />
        <NumberField
          label="Sorties"
          unit=""
          min={1}
          max={10_000}
          isWhole
          value={asked}
          placeholder={formatNumber(sorties)}
          onCommit={setSorties}
          onClear={() => setSorties(null)}
        />
        <NumberField
          label="A sortie every"
          unit="days"
          min={0}
          max={10_000}
          value={days}
          placeholder={by.waiting === null ? "not known" : formatNumber(by.waiting.days)}
          onCommit={setDays}
          onClear={() => setDays(null)}
        />
      </div>
      <DataTable
        caption={`From the ground for one further sortie and for ${sorties === 1 ? "one" : `all ${formatNumber(sorties)}`}, each with ${formatMass(mission.cargoDownKg)} down, ${formatMass(mission.cargoUpKg)} up and ${mission.crew === 1 ? "1 person" : `${formatNumber(mission.crew)} persons`}`}
        columns={columnsOf(sorties, commonCostUnit(plan.craftClasses))}
        rows={across.ways}
        rowId={({ way }) => way.id}
        empty="No way."
      />
      {shown !== null && (
        <>
          <div className="way-fields">
            <ChoiceField label="Compare" value={shown.a.way.id} choices={choices} onCommit={setReferenceId} />
            <ChoiceField
              label="with"
              value={shown.b.way.id}
              choices={choices.filter(({ id }) => id !== shown.a.way.id)}
              onCommit={setOtherId}
            />
          </div>
          <figure className="flight-plot">
            <Plot
              title={`From the ground by number of sorties: ${shown.a.way.name} and ${shown.b.way.name}`}
              notes={notes}
              height={360}
              label={null}
              compose={compose}
            />
            <figcaption>
              {breakEvenSentence(shown.a, shown.b, shown.found)} {movesMostSentence(shown.moved)}
            </figcaption>
          </figure>
        </>
      )}
      <ul className="across-notes">
        {[...notes, ...notCounted].map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
    </section>
  );
};
