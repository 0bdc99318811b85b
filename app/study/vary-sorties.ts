/** Inputs about sorties: what they take down, and how often they fly. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Sortie } from "../entity/sortie.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { InputAsked } from "./question.ts";
import { idle, rowNamed, withRoom, type Varied } from "./varied.ts";

type Of<Q extends InputAsked["quantity"]> = Extract<InputAsked, { readonly quantity: Q }>;

/** Sorties still to load, in order. One whose date has passed is taken to have left. */
const toLoad = (plan: PlanSnapshot): readonly Sortie[] =>
  plan.sorties
    .filter(({ status, loadAt }) => status === "planned" && loadAt >= plan.asOfAt && loadAt <= plan.horizonAt)
    .toSorted((a, b) => a.loadAt - b.loadAt || (a.id < b.id ? -1 : 1));

export const cargo = (plan: PlanSnapshot, asked: Of<"cargo">, field: string): Varied => {
  const flown = toLoad(plan);
  const one =
    asked.sortie === undefined ? null : rowNamed(flown, asked.sortie, "sortie still to load", `${field}.sortie`);
  const laden = (one === null ? flown : [one]).filter(({ demand }) => demand.kind === "profile");
  if (laden.length === 0)
    idle(
      `${one === null ? "No sortie still to load" : `${one.name} does not`} ${one === null ? "computes" : "compute"} what it needs from a profile: its cargo changes nothing.`,
      field,
    );
  const ids = new Set(laden.map(({ id }) => id));
  const carried = new Set(laden.map(({ demand }) => (demand.kind === "profile" ? demand.cargoDownKg : 0)));
  return {
    words: `cargo of ${one === null ? "every sortie" : one.name}`,
    unit: "kg",
    today: carried.size === 1 ? ([...carried][0] ?? null) : null,
    least: 0,
    most: 1e6,
    whyLimits: "A cargo is 0 to a thousand tonnes.",
    writes: laden.map(({ id }) => `cargo ${id}`),
    change: (of, value) => ({
      ...of,
      sorties: of.sorties.map((row) =>
        ids.has(row.id) && row.demand.kind === "profile"
          ? { ...row, demand: { ...row.demand, cargoDownKg: value } }
          : row,
      ),
    }),
  };
};

export const sortieCadence = (plan: PlanSnapshot, _asked: Of<"sortie cadence">, field: string): Varied => {
  const order = toLoad(plan);
  if (order.length < 2) idle("Fewer than two sorties are still to load: a cadence changes nothing.", field);
  const indexOf = new Map(order.map(({ id }, n) => [id, n]));
  const firstAt = order[0]?.loadAt ?? 0;
  return {
    words: "sortie cadence",
    unit: "days",
    today: null,
    least: 0.25,
    most: 3650,
    whyLimits: "From one loading to the next it is a quarter of a day to 3650 days.",
    writes: ["sortie cadence"],
    change: (of, value) => {
      const sorties = of.sorties.map((row) => {
        const n = indexOf.get(row.id);
        if (n === undefined) return row;
        const loadAt = firstAt + Math.round(n * value * DAY_MS);
        return { ...row, loadAt, returnAt: loadAt + (row.returnAt - row.loadAt) };
      });
      const moved = sorties.filter(({ id }) => indexOf.has(id));
      const isOut = moved.some(({ loadAt }) => loadAt > of.horizonAt);
      return withRoom(
        of,
        { ...of, sorties },
        isOut ? Math.max(...moved.map(({ returnAt }) => returnAt)) : of.horizonAt,
      );
    },
  };
};
