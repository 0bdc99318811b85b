/** What the table of flights has beside its plain fields: origin and loads, and the new flight of a pasted line. */
import { type Flight, freshFlight } from "../../../app/entity/flight.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { sheetColumnOf } from "../../../app/fields/field.ts";
import { flightFields } from "../../../app/fields/flight-fields.ts";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import { usualLoads } from "../../forms/fresh.ts";
import { nextName } from "../../names/new-id.ts";
import type { NewRow } from "./write-cells.ts";
import { type CellSpec, choiceCell, numberCell } from "./cell-spec.ts";
import { BY_RECORD, fieldCells } from "./field-cells.ts";

const isRecorded = ({ status }: Flight): boolean => status === "departed" || status === "arrived" || status === "lost";
const begun = (flight: Flight): string | null => (isRecorded(flight) ? BY_RECORD : null);
const over = ({ status }: Flight): string | null => (status === "arrived" || status === "lost" ? BY_RECORD : null);

/** The id of the column of what is loaded of a propellant. */
export const loadColumnId = (propellantId: string): string => `load.${propellantId}`;

const loadCell = (
  plan: PlanSnapshot,
  { id, name }: PlanSnapshot["propellants"][number],
  isTons: boolean,
): CellSpec<Flight> => {
  const scale = isTons ? 1000 : 1;
  const bare = numberCell<Flight>({
    heading: name,
    words: `${name.toLowerCase()} loaded`,
    range: { min: 0, max: 1e9 / scale, unit: isTons ? "t" : "kg" },
    get: (flight) => {
      const kg = flight.loads.find(({ propellantId }) => propellantId === id)?.loadedKg;
      return kg === undefined ? null : Number((kg / scale).toPrecision(15));
    },
    set: (flight, value) => {
      const loadedKg = Number((value * scale).toPrecision(15));
      const isKnown = flight.loads.some(({ propellantId }) => propellantId === id);
      if (loadedKg === 0) return { ...flight, loads: flight.loads.filter(({ propellantId }) => propellantId !== id) };
      if (!isKnown) return { ...flight, loads: [...flight.loads, { propellantId: id, loadedKg }] };
      return {
        ...flight,
        loads: flight.loads.map((load) => (load.propellantId === id ? { ...load, loadedKg } : load)),
      };
    },
    fixed: begun,
  });
  return {
    ...bare,
    put: (flight, text) => {
      if (text === "")
        return { ok: true, value: { ...flight, loads: flight.loads.filter((load) => load.propellantId !== id) } };
      const put = bare.put(flight, text);
      if (!put.ok) return put;
      const craftClass = plan.craftClasses.find(
        (row) => row.id === plan.craft.find((craft) => craft.id === put.value.craftId)?.classId,
      );
      const isLoaded = put.value.loads.some(({ propellantId }) => propellantId === id);
      const carries = craftClass?.propellants.some(({ propellantId }) => propellantId === id) === true;
      return isLoaded && !carries
        ? { ok: false, fault: `${craftClass?.name ?? "Its tanker"} does not carry ${name.toLowerCase()}.` }
        : put;
    },
  };
};

const originCell = (plan: PlanSnapshot): CellSpec<Flight> =>
  choiceCell({
    heading: flightFields.origin.label,
    words: flightFields.origin.words,
    what: "source or depot",
    choices: [...plan.sources, ...plan.depots],
    get: ({ origin }) => (origin.kind === "source" ? origin.sourceId : origin.depotId),
    set: (flight, id) => ({
      ...flight,
      origin: plan.sources.some((source) => source.id === id)
        ? { kind: "source", sourceId: id }
        : { kind: "depot", depotId: id },
    }),
    fixed: begun,
  });

/** By the column's id, in the order in which they are to be written. */
export const flightCells = (plan: PlanSnapshot, isTons: boolean): ReadonlyMap<string, CellSpec<Flight>> =>
  fieldCells<Flight, typeof flightFields>(
    plan,
    flightFields,
    ["name", "status"],
    { begun, over },
    {
      origin: [["from", originCell(plan)]],
      loads: plan.propellants.map((row) => [loadColumnId(row.id), loadCell(plan, row, isTons)]),
    },
  );

/** The cell of a property of a flight in which the service found a fault; null: it has none. */
export const flightColumnOf = (property: string, flight: Flight): string | null => {
  const [field = "", index = ""] = property.split(".");
  if (field === "loads") {
    const load = flight.loads[Number(index)];
    return load === undefined ? null : loadColumnId(load.propellantId);
  }
  return sheetColumnOf(flightFields, field);
};

/**
 * A flight that a pasted line below the last one makes: tanker, From, To and what is done with an overflow as of the flight
 * above; time under way, at the port and loads as of its tanker's class, but for what the line says itself.
 */
export const newFlight = (
  plan: PlanSnapshot,
  above: Flight,
  given: ReadonlyMap<string, string>,
  cells: ReadonlyMap<string, CellSpec<Flight>>,
): NewRow<Flight> => {
  if (!given.has("depart") && !given.has("arrive"))
    return { ok: false, columnId: "depart", fault: "A new flight needs its departure or its arrival." };
  const craftText = given.get("craft");
  const chosen = craftText === undefined ? null : cells.get("craft")?.put({ ...above, status: "planned" }, craftText);
  const craftId = chosen?.ok === true ? chosen.value.craftId : above.craftId;
  const craftClass = plan.craftClasses.find(({ id }) => id === plan.craft.find((row) => row.id === craftId)?.classId);
  const tripMs = Math.round((craftClass?.tripDays ?? 0) * DAY_MS);
  const names = new Set(plan.flights.map(({ name }) => name));
  const fresh: Flight = {
    ...above,
    ...freshFlight,
    overflow: above.overflow,
    name: nextName(above.name, names),
    craftId,
    departAt: 0,
    arriveAt: tripMs,
    berthDays: craftClass?.berthDays ?? above.berthDays,
    loads: usualLoads(craftClass),
  };
  const isArrivalAlone = !given.has("depart");
  return {
    ok: true,
    value: fresh,
    finish: (flight) => (isArrivalAlone ? { ...flight, departAt: flight.arriveAt - tripMs } : flight),
  };
};

/** What new flights have that their lines did not say: "From Earth, to Tarn, by Drover 1." */
export const takenForFlights = (plan: PlanSnapshot, above: Flight, given: ReadonlySet<string>): string => {
  const nameOf = (rows: readonly { readonly id: string; readonly name: string }[], id: string): string =>
    rows.find((row) => row.id === id)?.name ?? id;
  const originId = above.origin.kind === "source" ? above.origin.sourceId : above.origin.depotId;
  const taken = [
    ...(given.has("from") ? [] : [`from ${nameOf([...plan.sources, ...plan.depots], originId)}`]),
    ...(given.has("to") ? [] : [`to ${nameOf(plan.depots, above.depotId)}`]),
    ...(given.has("craft") ? [] : [`flown by ${nameOf(plan.craft, above.craftId)}`]),
  ];
  const ofClass = [
    ...(given.has("depart") && given.has("arrive") ? [] : ["time under way"]),
    ...(given.has("berth") ? [] : ["time at the port"]),
    ...(plan.propellants.every(({ id }) => given.has(loadColumnId(id))) ? [] : ["loads not given"]),
  ];
  return [
    ...(taken.length === 0 ? [] : [`As ${above.name}: ${taken.join(", ")}.`]),
    ...(ofClass.length === 0 ? [] : [`By the tanker’s class: ${ofClass.join(", ")}.`]),
  ].join(" ");
};
