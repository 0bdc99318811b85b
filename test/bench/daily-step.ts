/**
 * The forecast as a spreadsheet keeps it, to be compared with: one row a day of plain objects, the day's loss taken off
 * the level at its start, everything that happens in a day moved to that day's row, deliveries before loadings.
 */
import type { CompiledPlan } from "../../app/forecast/compiled-plan.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";

const DAY = 86_400_000;

export interface DayRow {
  readonly day: number;
  readonly levelsKg: Record<string, number>;
}

export interface DailyStep {
  readonly rows: readonly DayRow[];
  /** Sorties that cannot load. */
  readonly shortIds: ReadonlySet<string>;
}

interface Line {
  readonly propellantId: string;
  readonly massKg: number;
}

/** What the sheet is filled with: dates as whole days, amounts as the exact forecast has them. */
export interface Sheet {
  readonly days: number;
  readonly tanks: readonly {
    readonly propellantId: string;
    readonly openingKg: number;
    readonly maximumKg: number;
    readonly heelKg: number;
    readonly rates: readonly { readonly fromDay: number; readonly shareADay: number }[];
  }[];
  readonly deliveries: readonly { readonly day: number; readonly lines: readonly Line[] }[];
  readonly sorties: readonly {
    readonly id: string;
    readonly day: number;
    readonly backDay: number;
    readonly needs: readonly (Line & { readonly homeKg: number; readonly chillKg: number; readonly keep: number })[];
  }[];
}

/** Copies a plan of one depot with one tank a propellant into a sheet. */
export const sheetOf = (plan: PlanSnapshot, compiled: CompiledPlan, deliverableKg: Float64Array): Sheet => {
  const dayOf = (at: number): number => Math.floor((at - plan.asOfAt) / DAY);
  return {
    days: dayOf(plan.horizonAt),
    tanks: plan.tanks.map((tank) => {
      const index = compiled.tankIds.indexOf(tank.id);
      const changes = [...compiled.rateTank.keys()].filter((row) => compiled.rateTank[row] === index);
      const times = new Map<number, number>();
      compiled.eventKind.forEach((kind, event) => {
        if (kind === 0) times.set(compiled.eventIndex[event] ?? 0, compiled.eventAt[event] ?? 0);
      });
      return {
        propellantId: tank.propellantId,
        openingKg: compiled.tankOpeningKg[index] ?? 0,
        maximumKg: tank.maximumFillKg,
        heelKg: tank.heelKg,
        rates: [
          { fromDay: 0, shareADay: 1 - Math.exp(-(compiled.tankK[index] ?? 0)) },
          ...changes.map((row) => ({
            fromDay: dayOf(times.get(row) ?? 0),
            shareADay: 1 - Math.exp(-(compiled.rateK[row] ?? 0)),
          })),
        ],
      };
    }),
    deliveries: compiled.flightIds.map((_, flight) => ({
      day: dayOf(compiled.flightArriveAt[flight] ?? 0),
      lines: [...compiled.linePropellantIds.keys()]
        .filter((line) => compiled.lineFlight[line] === flight)
        .map((line) => ({
          propellantId: compiled.linePropellantIds[line] ?? "",
          massKg: deliverableKg[line] ?? 0,
        })),
    })),
    sorties: compiled.sortieIds.map((id, sortie) => ({
      id,
      day: dayOf(compiled.sortieLoadAt[sortie] ?? 0),
      backDay: dayOf(compiled.sortieReturnAt[sortie] ?? 0),
      needs: [...compiled.needPropellantIds.keys()]
        .slice(compiled.sortieLineStart[sortie], compiled.sortieLineStart[sortie + 1])
        .map((need) => ({
          propellantId: compiled.needPropellantIds[need] ?? "",
          massKg: compiled.needLoadKg[need] ?? 0,
          homeKg: compiled.needReturnKg[need] ?? 0,
          chillKg: compiled.needChillKg[need] ?? 0,
          keep: compiled.needKeep[need] ?? 1,
        })),
    })),
  };
};

/** Goes down the rows. `dockedShareADay`: what the lander loses between sorties. */
export const dailyStep = (sheet: Sheet, dockedShareADay: Readonly<Record<string, number>>): DailyStep => {
  const level: Record<string, number> = {};
  const aboard: Record<string, number> = {};
  for (const tank of sheet.tanks) level[tank.propellantId] = tank.openingKg;
  const rows: DayRow[] = [];
  const shortIds = new Set<string>();
  for (let day = 0; day < sheet.days; day += 1) {
    for (const sortie of sheet.sorties)
      if (sortie.backDay === day && !shortIds.has(sortie.id))
        for (const need of sortie.needs) aboard[need.propellantId] = need.homeKg;
    for (const delivery of sheet.deliveries) {
      if (delivery.day !== day) continue;
      for (const line of delivery.lines) {
        const tank = sheet.tanks.find((each) => each.propellantId === line.propellantId);
        level[line.propellantId] = Math.min(tank?.maximumKg ?? 0, (level[line.propellantId] ?? 0) + line.massKg);
      }
    }
    for (const sortie of sheet.sorties) {
      if (sortie.day !== day) continue;
      const takes = sortie.needs.map((need) => ({
        propellantId: need.propellantId,
        massKg: need.chillKg + (need.massKg - (aboard[need.propellantId] ?? 0)) / need.keep,
      }));
      const isShort = takes.some((take) => {
        const tank = sheet.tanks.find((each) => each.propellantId === take.propellantId);
        return take.massKg > (level[take.propellantId] ?? 0) - (tank?.heelKg ?? 0);
      });
      if (isShort) shortIds.add(sortie.id);
      else
        for (const take of takes) {
          level[take.propellantId] = (level[take.propellantId] ?? 0) - take.massKg;
          aboard[take.propellantId] = 0;
        }
    }
    rows.push({ day, levelsKg: { ...level } });
    for (const tank of sheet.tanks) {
      const rate = tank.rates.findLast((each) => each.fromDay <= day)?.shareADay ?? 0;
      level[tank.propellantId] = (level[tank.propellantId] ?? 0) * (1 - rate);
      aboard[tank.propellantId] = (aboard[tank.propellantId] ?? 0) * (1 - (dockedShareADay[tank.propellantId] ?? 0));
    }
  }
  return { rows, shortIds };
};

/** What a docked lander loses in a day, as a share. */
export const dockedLosses = (plan: PlanSnapshot): Record<string, number> =>
  Object.fromEntries(
    (plan.craftClasses.find((row) => row.id === "heron")?.propellants ?? []).map((line) => [
      line.propellantId,
      1 - Math.exp(-line.kPerDay),
    ]),
  );
