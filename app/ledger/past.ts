/** What the records say of every tank up to an instant: its level over time, and its level then. */
import type { LossRate } from "../storage/loss-rate.ts";
import { NO_LOSS } from "../storage/loss-rate.ts";
import type { OpeningLevel } from "../entity/plan.ts";
import type { LevelHistory } from "../storage/segment.ts";
import { type LevelAt, type TankLosses, carryForward, isStating } from "./carry-forward.ts";
import type { EntitySet } from "../entity/entities.ts";
import { findEntity } from "../entity/entity-index.ts";
import type { Tank } from "../entity/tank.ts";
import type { LedgerBooks, TankMovement } from "./books.ts";

/** The books, as far as the past needs them. */
export type Books = Pick<LedgerBooks, "statedLevels" | "tankMovements">;

/** The loss rate of a lander's tank at the depot where no period holds: that of its class. */
const dockedRate = (entities: EntitySet, tank: Tank): LossRate => {
  if (tank.ownerKind === "depot") return NO_LOSS;
  const craft = findEntity(entities, "craft", tank.ownerId);
  const craftClass = craft === null ? null : findEntity(entities, "craftClass", craft.classId);
  return craftClass?.propellants.find((line) => line.propellantId === tank.propellantId) ?? NO_LOSS;
};

/** What a tank loses in a plan: its periods, and the class's docked rate for a lander. */
export const lossesOf = (entities: EntitySet, tank: Tank): TankLosses => ({
  periods: entities.lossPeriod.filter((period) => period.tankId === tank.id),
  fallback: dockedRate(entities, tank),
});

/** Movements of each tank that are drawn; older ones lie before the picture begins. */
const MAX_MOVEMENTS = 2000;

const INSTANT_BEFORE_ALL = -1;

/** Where the carrying starts: the first stating movement if the list was cut off, else what was there before the first. */
const startOf = (
  movements: readonly TankMovement[],
  stated: LevelAt | undefined,
  books: () => readonly TankMovement[],
) => {
  const isCut = movements.length >= MAX_MOVEMENTS;
  const first = isCut ? movements.findIndex(isStating) : 0;
  const opening = movements[first];
  if (opening !== undefined)
    return {
      start: { at: opening.sinceAt ?? opening.at, massKg: 0 },
      rest: first === 0 ? movements : movements.slice(first),
    };
  // Nothing stated among the latest: the whole way from the last statement must be walked.
  if (stated !== undefined) return { start: stated, rest: books() };
  const whole = isCut ? books() : [];
  return whole[0] === undefined ? null : { start: { at: whole[0].at, massKg: 0 }, rest: whole };
};

export interface Past {
  readonly histories: readonly LevelHistory[];
  readonly opening: readonly OpeningLevel[];
}

/**
 * The past of every tank of `entities` up to `asOfAt`, and the level of each then. Loss periods are those of
 * `entities`: hand in one plan case. A tank without records has neither. `knownAt`: records after it are left out.
 */
export const recordedPast = (entities: EntitySet, books: Books, asOfAt: number, knownAt: number = asOfAt): Past => {
  const movements = Map.groupBy(books.tankMovements(INSTANT_BEFORE_ALL, knownAt, MAX_MOVEMENTS), (m) => m.tankId);
  const stated = new Map(books.statedLevels().map((level) => [level.tankId, level]));
  const statedBefore = (tankId: string): LevelAt | undefined => {
    const last = stated.get(tankId);
    return last !== undefined && last.at <= knownAt ? last : undefined;
  };
  const histories: LevelHistory[] = [];
  const opening: OpeningLevel[] = [];
  for (const tank of entities.tank) {
    const whole = () =>
      books.tankMovements(statedBefore(tank.id)?.at ?? INSTANT_BEFORE_ALL, knownAt).filter((m) => m.tankId === tank.id);
    const walk = startOf(movements.get(tank.id) ?? [], statedBefore(tank.id), whole);
    if (walk === null) continue;
    const { segments, endKg } = carryForward(walk.start, walk.rest, lossesOf(entities, tank), asOfAt);
    histories.push({ tankId: tank.id, segments });
    opening.push({ tankId: tank.id, massKg: endKg });
  }
  return { histories, opening };
};

/** A tank's level at an instant by the books and the loss model, kg, and by the books alone, kg. */
export interface ModelledLevel {
  readonly modelKg: number;
  readonly bookKg: number;
}

/**
 * Level of one tank at the end of an instant; for an instant before the last record it is what was known of it then.
 * `running`: parts up to the instant of metered handovers that end after it.
 */
export const levelAt = (
  entities: EntitySet,
  books: Books,
  tank: Tank,
  at: number,
  running: readonly { readonly sinceAt: number; readonly massKg: number }[] = [],
): ModelledLevel => {
  const latest = books.tankMovements(INSTANT_BEFORE_ALL, at, MAX_MOVEMENTS).filter((m) => m.tankId === tank.id);
  const isEnough = latest.length < MAX_MOVEMENTS || latest.some(isStating);
  const ended = isEnough ? latest : books.tankMovements(INSTANT_BEFORE_ALL, at).filter((m) => m.tankId === tank.id);
  const flowedKg = running.reduce((sum, { massKg }) => sum + massKg, 0);
  const bookKg = (ended.at(-1)?.bookKg ?? 0) + flowedKg;
  const movements = [
    ...ended,
    ...running.map((flow): TankMovement => ({ ...flow, tankId: tank.id, at, kind: "arrival", bookKg, statedKg: null })),
  ];
  const from = Math.max(0, movements.findLastIndex(isStating));
  const first = movements[from];
  if (first === undefined) return { modelKg: 0, bookKg: 0 };
  const { endKg } = carryForward(
    { at: first.sinceAt ?? first.at, massKg: 0 },
    movements.slice(from),
    lossesOf(entities, tank),
    at,
  );
  return { modelKg: endKg, bookKg };
};
