/** Which sortie sheets a report has, and which of them a sortie is flown by. */
import type { Entity } from "../entity/entities.ts";
import { sheetOfSortie } from "../sortie/plan-demand.ts";
import type { SortieSheet } from "../sortie/sheet.ts";
import type { ReportContext } from "./context.ts";

type Demand = Extract<Entity<"sortie">["demand"], { readonly kind: "profile" }>;

/** A sheet, what it was computed for, and the sorties that it holds for. */
export interface Flown {
  readonly sheet: SortieSheet;
  readonly demand: Demand;
  readonly landerId: string;
  readonly sortieIds: readonly string[];
  readonly names: readonly string[];
}

/** The sheets of the period's sorties, in order of time; sorties that fly alike share one. */
export const flownIn = ({ main, choices }: ReportContext): readonly Flown[] => {
  const { plan } = main.view;
  const flown = new Map<SortieSheet, Flown>();
  for (const sortie of plan.sorties.toSorted((a, b) => a.loadAt - b.loadAt)) {
    const { id, demand, landerId, loadAt, name, status } = sortie;
    if (demand.kind !== "profile" || status === "cancelled" || status === "stood down") continue;
    if (loadAt < choices.fromAt || loadAt > choices.untilAt) continue;
    // The same lander, profile, cargo and crew give the same object.
    const sheet = sheetOfSortie(plan, sortie);
    if (sheet === null) continue;
    const alike = flown.get(sheet) ?? { sheet, demand, landerId, sortieIds: [], names: [] };
    flown.set(sheet, { ...alike, sortieIds: [...alike.sortieIds, id], names: [...alike.names, name] });
  }
  return [...flown.values()];
};

/** The block with which a sheet begins, by its place among the sheets: where a link to it leads. */
export const sheetId = (index: number): string => `sortie-${index + 1}-mass`;

/** From a sortie to the block of its sheet; none where its load is stated or the period leaves it out. */
export const sheetsBySortie = (context: ReportContext): ReadonlyMap<string, string> =>
  new Map(flownIn(context).flatMap(({ sortieIds }, index) => sortieIds.map((id) => [id, sheetId(index)] as const)));
