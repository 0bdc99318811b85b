/** A plant's ready loads as flights, or a direct line into a depot: what would come, shown before it is made; one step. */
import { useMemo, useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Entity } from "../../app/entity/entities.ts";
import { type PlantEffect, plantEffect } from "../../app/plant/plant-effect.ts";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { formatMass } from "../format/mass.ts";
import { countWords } from "../names/entity-words.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { dayColumn } from "../widgets/instant-column.ts";
import { massColumn } from "../widgets/mass-column.ts";
import { type PlantRequest, type PlantDelivery, pairTankers, plantChanges } from "./plant-request.ts";
import { nameIn } from "../../app/words/named.ts";

type Flight = Entity<"flight">;

const TITLE = "Flights from a plant";
/** More new findings than this are counted, not listed. */
const MAX_FINDINGS = 4;

const columnsFor = (plan: PlanSnapshot, flights: readonly Flight[]): readonly Column<Flight>[] => {
  const propellantIds = [...new Set(flights.flatMap(({ loads }) => loads.map(({ propellantId }) => propellantId)))];
  const loadOf = (flight: Flight, id: string): number =>
    flight.loads.find(({ propellantId }) => propellantId === id)?.loadedKg ?? 0;
  return [
    { id: "name", heading: "Flight", value: ({ name }) => name },
    dayColumn("departs", "Departs", ({ departAt }) => departAt),
    dayColumn("arrives", "Arrives", ({ arriveAt }) => arriveAt),
    ...propellantIds.map((id) =>
      massColumn(flights, "kg", {
        id,
        heading: nameIn(plan.propellants, id),
        massKg: (flight: Flight) => loadOf(flight, id),
      }),
    ),
  ];
};

const effectWords = (
  plan: PlanSnapshot,
  effect: PlantEffect,
  depot: Entity<"depot">,
  delivery: PlantDelivery,
): string[] => {
  const nameOf = (id: string): string => plan.propellants.find((row) => row.id === id)?.name.toLowerCase() ?? id;
  const brought = effect.brought.map(({ propellantId, loadedKg, takenKg }) => {
    const all = formatMass(loadedKg);
    return `${formatMass(takenKg)} of ${all} ${nameOf(propellantId)}`;
  });
  const more = effect.findings.length - MAX_FINDINGS;
  return [
    `By the end of the plan ${depot.name}'s tanks take ${brought.join(" and ")}.`,
    ...(effect.sorties.length === 0
      ? ["No sortie changes its status."]
      : effect.sorties.map(({ name, before, after }) => `${name} goes from ${before} to ${after}.`)),
    ...(delivery === "line"
      ? [
          `The line is a craft of a class of its own. While a run lasts it is connected at one of ${depot.name}'s ${depot.ports === 1 ? "ports (it has one)" : `${depot.ports} ports`} for tankers; if it is plumbed in beside them, give the depot one port more.`,
        ]
      : []),
    ...(delivery === "flights" && effect.overlapping > 0
      ? [
          `${effect.overlapping} of them ${effect.overlapping === 1 ? "leaves" : "leave"} before the previous one ends: one hull cannot fly all of them, so give some to another.`,
        ]
      : []),
    ...(effect.already > 0
      ? [
          `This plan case has ${countWords("flight", effect.already)} from the plant ahead already; they stay as they are.`,
        ]
      : []),
    ...effect.findings.slice(0, MAX_FINDINGS),
    ...(more > 0 ? [`And ${more} more of such findings.`] : []),
  ];
};

export const PlantFlightsDialog = ({ request, close }: DialogProps) => {
  const current = useApp((state) => state.current);
  const plants = current?.plan.sources.filter(({ plant }) => plant !== null) ?? [];
  const subjectId = request.subject?.kind === "source" ? request.subject.id : null;
  const [sourceId, setSource] = useState(subjectId);
  const source = plants.find(({ id }) => id === sourceId) ?? plants[0];
  if (current === null) return null;
  const depot = current.plan.depots[0];
  if (source === undefined || depot === undefined) {
    return (
      <Dialog title={TITLE} width="narrow" onClose={close}>
        <p className="form-advice">
          {depot === undefined
            ? "Add a depot first: a flight goes to one."
            : "No source of this ledger is described as a plant. Add one in the Depots view, under Plants."}
        </p>
      </Dialog>
    );
  }
  return <PlantFlights current={current} plants={plants} source={source} onSource={setSource} close={close} />;
};

interface PlantFlightsProps {
  readonly current: CaseForecast;
  readonly plants: readonly Entity<"source">[];
  readonly source: Entity<"source">;
  readonly onSource: (id: string) => void;
  readonly close: () => void;
}

const PlantFlights = ({ current, plants, source, onSource, close }: PlantFlightsProps) => {
  const session = useSession();
  const { plan } = current;
  const tankers = pairTankers(plan);
  const [delivery, setDelivery] = useState<PlantDelivery>("flights");
  const [craftId, setCraft] = useState(tankers[0]?.id ?? null);
  const [depotId, setDepot] = useState(plan.depots[0]?.id ?? "");
  const [fault, setFault] = useState<string | null>(null);
  const asked: PlantRequest = useMemo(
    () => ({ source, delivery, craftId, depotId }),
    [source, delivery, craftId, depotId],
  );
  const changes = useMemo(() => plantChanges(plan, asked), [plan, asked]);
  const effect = useMemo(
    () => (typeof changes === "string" ? null : plantEffect(current, source.id, changes)),
    [current, source.id, changes],
  );
  const depot = plan.depots.find(({ id }) => id === depotId);
  const columns = useMemo(() => columnsFor(plan, effect?.flights ?? []), [plan, effect]);
  const make = async (): Promise<boolean> => {
    if (typeof changes === "string") return false;
    const label =
      delivery === "line" ? `Feed ${depot?.name ?? ""} from ${source.name}` : `Flights of the loads of ${source.name}`;
    const reply = await session.edit(label.slice(0, 120), [...changes]);
    if (!reply.ok) setFault(reply.failure.message);
    else session.announce(`${countWords("flight", effect?.flights.length ?? 0)} added.`);
    return reply.ok;
  };
  const count = effect?.flights.length ?? 0;
  const confirm = delivery === "line" ? "Make the line" : `Make ${countWords("flight", count)}`;
  return (
    <Dialog
      title={TITLE}
      width="wide"
      confirm={confirm}
      unable={effect === null ? "No flight comes of it as it is stated." : null}
      onConfirm={make}
      onClose={close}
      fault={typeof changes === "string" ? changes : fault}
    >
      <div className="plant-halves">
        <div>
          <ChoiceField
            label="Plant"
            value={source.id}
            choices={plants.map(({ id, name }) => ({ id, name }))}
            onCommit={onSource}
          />
          <ChoiceField
            label="Brought by"
            value={delivery}
            choices={[
              { id: "flights", name: "tanker flights", note: "one for each full load, when it is ready" },
              { id: "line", name: "a direct line", note: "flows while the plant is on duty" },
            ]}
            onCommit={setDelivery}
          />
          {delivery === "flights" && (
            <ChoiceField
              label="Tanker"
              value={craftId}
              choices={tankers.map(({ id, name }) => ({ id, name }))}
              onCommit={setCraft}
            />
          )}
          <ChoiceField
            label="To"
            value={depotId}
            choices={plan.depots.map(({ id, name }) => ({ id, name }))}
            onCommit={setDepot}
          />
        </div>
        <ul className="loss-messages" aria-live="polite">
          {effect !== null &&
            depot !== undefined &&
            effectWords(plan, effect, depot, delivery).map((sentence) => <li key={sentence}>{sentence}</li>)}
        </ul>
      </div>
      {effect !== null && (
        <DataTable
          caption={delivery === "line" ? "Runs of the line" : "Flights to be made"}
          columns={columns}
          rows={effect.flights}
          rowId={({ id }) => id}
          empty="None."
        />
      )}
    </Dialog>
  );
};
