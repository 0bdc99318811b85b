/** Inputs about flights: payload, transit, cadence, delay, number left out; and what only the risk knows of them. */
import type { CompiledPlan } from "../forecast/compiled-plan.ts";
import type { CraftClass } from "../entity/craft.ts";
import type { Flight } from "../entity/flight.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Uncertainty } from "../entity/risk-input.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { ResupplyAsked } from "../resupply/asked.ts";
import type { InputAsked } from "./question.ts";
import { idle, rowNamed, withRoom, type Varied } from "./varied.ts";

type Of<Q extends InputAsked["quantity"]> = Extract<InputAsked, { readonly quantity: Q }>;

const tankers = (plan: PlanSnapshot): readonly CraftClass[] =>
  plan.craftClasses.filter(({ role }) => role === "tanker");

/** Whether resupply is asked, which looks at a class that has no flight yet. */
export interface Looks {
  readonly asksResupply: boolean;
}

const classFlights = (plan: PlanSnapshot, classId: string | null): readonly Flight[] => {
  const hulls = new Set(plan.craft.filter((row) => classId === null || row.classId === classId).map(({ id }) => id));
  return plan.flights.filter(({ craftId }) => hulls.has(craftId));
};

/** Flights that are still to leave and arrive before the plan ends. One whose date has passed is taken to have left. */
const toLeave = (plan: PlanSnapshot, classId: string | null): readonly Flight[] =>
  classFlights(plan, classId).filter(
    ({ status, departAt, arriveAt }) =>
      (status === "planned" || status === "firm") && departAt >= plan.asOfAt && arriveAt <= plan.horizonAt,
  );

const byDeparture = (a: Flight, b: Flight): number => a.departAt - b.departAt || (a.id < b.id ? -1 : 1);

/** Of those the ones that a planner may still place: firm ones stay where they are. */
const placeable = (plan: PlanSnapshot, classId: string): readonly Flight[] =>
  toLeave(plan, classId)
    .filter(({ status }) => status === "planned")
    .toSorted(byDeparture);

/** The plan with these flights edited, and with room for them at its end. */
const withFlights = (plan: PlanSnapshot, ids: ReadonlySet<string>, edit: (row: Flight) => Flight): PlanSnapshot => {
  const flights = plan.flights.map((row) => (ids.has(row.id) ? edit(row) : row));
  const endAt = Math.max(
    ...flights.filter(({ id }) => ids.has(id)).map(({ arriveAt, berthDays }) => arriveAt + berthDays * DAY_MS),
  );
  const movesOut = flights.some(({ id, arriveAt }) => ids.has(id) && arriveAt > plan.horizonAt);
  return withRoom(plan, { ...plan, flights }, movesOut ? endAt : plan.horizonAt);
};

/** What feeds another depot at one instant hangs on the order of all flights there, which is worked out when the plan is compiled. */
const feedsDepots = (plan: PlanSnapshot): boolean => plan.flights.some(({ origin }) => origin.kind === "depot");

const idsOf = (rows: readonly { readonly id: string }[]): ReadonlySet<string> => new Set(rows.map(({ id }) => id));

const withClass = (plan: PlanSnapshot, classId: string, edit: (row: CraftClass) => CraftClass): PlanSnapshot => ({
  ...plan,
  craftClasses: plan.craftClasses.map((row) => (row.id === classId ? edit(row) : row)),
});

export const payload = (plan: PlanSnapshot, asked: Of<"payload">, field: string, looks: Looks): Varied => {
  const row = rowNamed(tankers(plan), asked.class, "tanker class", `${field}.class`);
  const propellant = rowNamed(plan.propellants, asked.propellant, "propellant", `${field}.propellant`);
  const line = row.propellants.find(({ propellantId }) => propellantId === propellant.id);
  if (line === undefined) idle(`${row.name} carries no ${propellant.name}.`, `${field}.propellant`);
  const carried = toLeave(plan, row.id).filter(({ loads }) =>
    loads.some(({ propellantId }) => propellantId === propellant.id),
  );
  if (carried.length === 0 && !looks.asksResupply)
    idle(
      `No flight of ${row.name} that is still to leave brings ${propellant.name}: its payload changes nothing.`,
      field,
    );
  const ids = idsOf(carried);
  const loaded = new Set(
    carried.flatMap(({ loads }) =>
      loads.filter(({ propellantId }) => propellantId === propellant.id).map(({ loadedKg }) => loadedKg),
    ),
  );
  const load = (rows: Flight["loads"], value: number): Flight["loads"] => {
    const first = rows.findIndex(({ propellantId }) => propellantId === propellant.id);
    return rows.map((one, n) =>
      one.propellantId === propellant.id ? { ...one, loadedKg: n === first ? value : 0 } : one,
    );
  };
  return {
    words: `payload of ${row.name}: ${propellant.name}`,
    unit: "kg",
    today: loaded.size === 1 ? ([...loaded][0] ?? null) : null,
    least: 0,
    most: line?.capacityKg ?? 0,
    whyLimits: `${row.name} holds at most ${line?.capacityKg ?? 0} kg of ${propellant.name}.`,
    writes: [`payload ${row.id} ${propellant.id}`],
    change: (of, value) => ({
      ...withClass(of, row.id, (now) => ({
        ...now,
        propellants: now.propellants.map((one) =>
          one.propellantId === propellant.id ? { ...one, loadKg: value } : one,
        ),
      })),
      flights: of.flights.map((one) => (ids.has(one.id) ? { ...one, loads: load(one.loads, value) } : one)),
    }),
    setter: (compiled) => {
      const lines: { readonly line: number; readonly isFirst: boolean }[] = [];
      compiled.flightIds.forEach((id, flight) => {
        let isFirst = true;
        for (
          let at = compiled.flightLineStart[flight] ?? 0;
          at < (compiled.flightLineStart[flight + 1] ?? 0);
          at += 1
        ) {
          if (!ids.has(id) || compiled.linePropellantIds[at] !== propellant.id) continue;
          lines.push({ line: at, isFirst });
          isFirst = false;
        }
      });
      return (engine, value) => {
        for (const { line: at, isFirst } of lines)
          engine.setLine(at, isFirst ? value : 0, compiled.lineChillKg[at] ?? 0, compiled.lineKeep[at] ?? 1);
      };
    },
  };
};

export const transit = (plan: PlanSnapshot, asked: Of<"transit">, field: string, looks: Looks): Varied => {
  const row = rowNamed(tankers(plan), asked.class, "tanker class", `${field}.class`);
  const ids = idsOf(toLeave(plan, row.id));
  if (ids.size === 0 && !looks.asksResupply)
    idle(`No flight of ${row.name} is still to leave: its transit changes nothing.`, field);
  return {
    words: `transit of ${row.name}`,
    unit: "days",
    today: null,
    least: 0,
    most: 3650,
    whyLimits: "A transit takes 0 to 3650 days.",
    writes: [`transit ${row.id}`],
    change: (of, value) => {
      const ms = Math.round(value * DAY_MS);
      const flights = withFlights(of, ids, (one) => ({ ...one, arriveAt: one.departAt + ms }));
      return withClass(flights, row.id, (now) => ({ ...now, tripDays: value }));
    },
  };
};

/** The questions' classes with an edit of one; where none are named, all of them as usual. */
const withAsked = (asked: ResupplyAsked, plan: PlanSnapshot, classId: string, everyDays: number): ResupplyAsked => {
  const classes =
    asked.classes.length > 0
      ? asked.classes
      : tankers(plan).map(({ id, turnaroundDays }) => ({
          classId: id,
          hulls: null,
          turnaroundDays,
          costPerFlight: null,
          everyDays: null,
        }));
  return { ...asked, classes: classes.map((one) => (one.classId === classId ? { ...one, everyDays } : one)) };
};

export const cadence = (plan: PlanSnapshot, asked: Of<"cadence">, field: string, looks: Looks): Varied => {
  const row = rowNamed(tankers(plan), asked.class, "tanker class", `${field}.class`);
  const order = placeable(plan, row.id);
  if (order.length < 2 && !looks.asksResupply)
    idle(
      `${row.name} has ${order.length === 1 ? "one flight" : "no flights"} left to place (firm ones stay): a cadence changes nothing.`,
      field,
    );
  const indexOf = new Map(order.map(({ id }, n) => [id, n]));
  const firstAt = order[0]?.departAt ?? 0;
  return {
    words: `cadence of ${row.name}`,
    unit: "days",
    today: null,
    least: 0.25,
    most: 1000,
    whyLimits: "From one departure to the next it is a quarter of a day to 1000 days.",
    writes: [`cadence ${row.id}`],
    change: (of, value) =>
      withFlights(of, new Set(indexOf.keys()), (one) => {
        const departAt = firstAt + Math.round((indexOf.get(one.id) ?? 0) * value * DAY_MS);
        return { ...one, departAt, arriveAt: departAt + (one.arriveAt - one.departAt) };
      }),
    asked: (of, now, value) => withAsked(of, now, row.id, value),
  };
};

export const flightDelay = (plan: PlanSnapshot, asked: Of<"flight delay">, field: string): Varied => {
  const row = asked.class === undefined ? null : rowNamed(tankers(plan), asked.class, "tanker class", `${field}.class`);
  const moved = toLeave(plan, row?.id ?? null);
  if (moved.length === 0) idle("No flight is still to leave: a delay changes nothing.", field);
  const ids = idsOf(moved);
  const lastAt = Math.max(...moved.map(({ arriveAt }) => arriveAt));
  return {
    words: `delay of ${row === null ? "every flight" : `each ${row.name} flight`}`,
    unit: "days",
    today: 0,
    least: 0,
    most: 3650,
    whyLimits: "A delay is 0 to 3650 days.",
    writes: moved.map(({ id }) => `delay ${id}`),
    change: (of, value) => {
      const ms = Math.round(value * DAY_MS);
      if (ms === 0) return of;
      return withFlights(of, ids, (one) => ({ ...one, departAt: one.departAt + ms, arriveAt: one.arriveAt + ms }));
    },
    canSet: (value) => !feedsDepots(plan) && lastAt + Math.round(value * DAY_MS) <= plan.horizonAt,
    setter: (compiled) => {
      const flights = compiled.flightIds.flatMap((id, flight) => (ids.has(id) ? [flight] : []));
      return ({ input }, value) => {
        const ms = Math.round(value * DAY_MS);
        for (const flight of flights) input.flightSlipMs[flight] = ms;
      };
    },
  };
};

export const leftOut = (plan: PlanSnapshot, asked: Of<"flights left out">, field: string): Varied => {
  const row = rowNamed(tankers(plan), asked.class, "tanker class", `${field}.class`);
  const order = placeable(plan, row.id);
  if (order.length === 0) idle(`${row.name} has no planned flight that could be left out (firm ones stay).`, field);
  const ids = (asked.which === "first" ? order : order.toReversed()).map(({ id }) => id);
  const without = (value: number): ReadonlySet<string> => new Set(ids.slice(0, value));
  return {
    words: `${row.name} flights left out`,
    unit: "",
    today: 0,
    least: 0,
    most: ids.length,
    isWhole: true,
    whyLimits: `${row.name} has ${ids.length} planned flights that could be left out.`,
    writes: [`left out ${row.id}`],
    change: (of, value) => {
      const gone = without(value);
      return { ...of, flights: of.flights.filter(({ id }) => !gone.has(id)) };
    },
    canSet: () => !feedsDepots(plan),
    setter: (compiled: CompiledPlan) => {
      const places = ids.map((id) => compiled.flightIds.indexOf(id)).filter((flight) => flight >= 0);
      return ({ input }, value) => {
        places.forEach((flight, n) => {
          input.flightIsOff[flight] = n < value ? 1 : 0;
        });
      };
    },
  };
};

/** The plan with one statement about a class in the place of all that is stated for it or for single flights of it. */
const withRisk = (plan: PlanSnapshot, classId: string, uncertainty: Uncertainty): PlanSnapshot => {
  const own = idsOf(classFlights(plan, classId));
  const isOfClass = ({ quantity, of }: Uncertainty): boolean =>
    quantity === uncertainty.quantity &&
    ((of.kind === "craft class" && of.craftClassId === classId) || (of.kind === "flight" && own.has(of.flightId)));
  return {
    ...plan,
    riskInputs: [
      ...plan.riskInputs.filter((row) => !isOfClass(row.uncertainty)),
      {
        id: `study-${uncertainty.quantity.replace(" ", "-")}-${classId}`,
        planCaseId: plan.planCase.id,
        uncertainty,
        source: "varied by a study",
        note: "",
      },
    ],
  };
};

const riskOfClass = (
  plan: PlanSnapshot,
  asked: Of<"reliability"> | Of<"slip">,
  field: string,
): { readonly row: CraftClass } => {
  const row = rowNamed(tankers(plan), asked.class, "tanker class", `${field}.class`);
  if (toLeave(plan, row.id).length === 0)
    idle(`No flight of ${row.name} is still to leave: its ${asked.quantity} changes nothing.`, field);
  return { row };
};

export const reliability = (plan: PlanSnapshot, asked: Of<"reliability">, field: string): Varied => {
  const { row } = riskOfClass(plan, asked, field);
  return {
    words: `reliability of ${row.name}`,
    unit: "",
    today: null,
    least: 0,
    most: 1,
    whyLimits: "A probability lies between 0 and 1.",
    isForRisk: true,
    writes: [`reliability ${row.id}`],
    change: (of, value) =>
      withRisk(of, row.id, {
        quantity: "flight loss",
        of: { kind: "craft class", craftClassId: row.id },
        law: { kind: "probability", probability: 1 - value },
      }),
  };
};

export const slip = (plan: PlanSnapshot, asked: Of<"slip">, field: string): Varied => {
  const { row } = riskOfClass(plan, asked, field);
  return {
    words: `mean slip of ${row.name}`,
    unit: "days",
    today: null,
    least: 0,
    most: 3650,
    whyLimits: "A mean slip is 0 to 3650 days.",
    isForRisk: true,
    writes: [`slip ${row.id}`],
    change: (of, value) =>
      withRisk(of, row.id, {
        quantity: "flight slip",
        of: { kind: "craft class", craftClassId: row.id },
        law: value > 0 ? { kind: "exponential", noneShare: 0, meanDays: value } : { kind: "none" },
      }),
  };
};
