/** A lander was loaded and left: the depot's tanks gave, part was lost in the handover, and all aboard went on its way. */
import type { RecordInput } from "./record-input.ts";
import { PlanningError } from "../ground/failure.ts";
import { sortieNeeds } from "../forecast/compile-sorties.ts";
import { madeUpTankId } from "../forecast/compile-tanks.ts";
import type { Change, EntitySet } from "../entity/entities.ts";
import { findEntity } from "../entity/entity-index.ts";
import type { Sortie } from "../entity/sortie.ts";
import type { Tank } from "../entity/tank.ts";
import { type Posting, toGrams, toKg } from "../ledger/journal.ts";
import type { Step } from "../ledger/books.ts";
import { tankGrams } from "./level-state.ts";
import { entryOf, gramsByPropellant, line } from "./postings.ts";
import { type RecordBooks, type Recorder, stepOf } from "./recorder.ts";
import { withRestatement } from "./restate.ts";
import { sortieEverywhere, sortieIn, tankOf } from "./subject.ts";

/** The lander's own tank for a propellant; one that has none yet is made, as large as its class says. */
export const landerTank = (
  entities: EntitySet,
  landerId: string,
  propellantId: string,
): { readonly tank: Tank; readonly isNew: boolean } => {
  const known = entities.tank.find(
    (row) => row.ownerKind === "craft" && row.ownerId === landerId && row.propellantId === propellantId,
  );
  if (known !== undefined) return { tank: known, isNew: false };
  const craft = findEntity(entities, "craft", landerId);
  const craftClass = craft === null ? null : findEntity(entities, "craftClass", craft.classId);
  const carried = craftClass?.propellants.find((row) => row.propellantId === propellantId);
  if (craft === null || carried === undefined)
    throw new PlanningError("refused", `${craft?.name ?? landerId} does not carry ${propellantId}.`, "drawn");
  const propellant = findEntity(entities, "propellant", propellantId);
  const tank: Tank = {
    id: madeUpTankId(landerId, propellantId),
    ownerKind: "craft",
    ownerId: landerId,
    propellantId,
    name: `${craft.name} ${propellant?.symbol ?? propellantId}`.slice(0, 80),
    volumeM3: null,
    ullagePercent: 0,
    maximumFillKg: carried.capacityKg,
    heelKg: 0,
    reserveKg: 0,
    rank: null,
  };
  return { tank, isNew: true };
};

/** The lines of one propellant. What the lander's tank lost at the depot is booked here, as it leaves with the rest. */
const linesOf = (
  entities: EntitySet,
  books: RecordBooks,
  sortie: Sortie,
  at: number,
  tank: Tank,
  drawn: readonly { readonly tank: Tank; readonly grams: number }[],
  lost: number,
): Posting[] => {
  const given = drawn.reduce((sum, { grams }) => sum + grams, 0);
  if (lost > given)
    throw new PlanningError("refused", `${toKg(lost)} kg cannot be lost of ${toKg(given)} kg drawn.`, "handoverLoss");
  const { bookGrams, modelGrams } = tankGrams(entities, books, tank, at);
  const { propellantId } = tank;
  return [
    ...drawn.map((row) => line("tank", row.tank.id, propellantId, -row.grams)),
    line("handover loss", sortie.depotId, propellantId, lost),
    line("tank", tank.id, propellantId, -bookGrams),
    line("boil-off", sortie.landerId, propellantId, bookGrams - modelGrams),
    line("transit", sortie.key, propellantId, modelGrams + given - lost),
  ];
};

/**
 * Propellants that the sortie needs and its lander has tanks for. Others stay in the lander's tanks and boil off there, as
 * the forecast has it. Where its profile cannot be computed, all that the lander has tanks for.
 */
const neededAboard = (entities: EntitySet, sortie: Sortie): readonly string[] => {
  const craft = findEntity(entities, "craft", sortie.landerId);
  const carried = (craft === null ? null : findEntity(entities, "craftClass", craft.classId))?.propellants ?? [];
  const kept = entities.tank.filter((row) => row.ownerKind === "craft" && row.ownerId === sortie.landerId);
  const held = new Set([...kept, ...carried].map(({ propellantId }) => propellantId));
  const { craftClass: craftClasses, profile: profiles, propellant: propellants } = entities;
  try {
    return sortieNeeds({ craft: entities.craft, craftClasses, profiles, propellants }, sortie)
      .map(({ propellantId }) => propellantId)
      .filter((propellantId) => held.has(propellantId));
  } catch (error) {
    if (error instanceof PlanningError) return [...held];
    throw error;
  }
};

export const recordLoading = (books: RecordBooks, input: RecordInput<"record.loading">, recorder: Recorder): Step => {
  const entities = books.entities();
  const sortie = sortieIn(entities, input.sortieId, ["planned"]);
  const lost = gramsByPropellant(input.handoverLoss, "handoverLoss");
  const drawn = input.drawn.map(({ tankId, massKg }, i) => ({
    tank: tankOf(entities, tankId, sortie.depotId, `drawn.${i}.tankId`),
    grams: toGrams(massKg),
  }));
  const propellantIds = new Set([
    ...drawn.map((row) => row.tank.propellantId),
    ...lost.keys(),
    ...neededAboard(entities, sortie),
  ]);
  const newTanks: Change[] = [];
  const lines = [...propellantIds].flatMap((id) => {
    const { tank, isNew } = landerTank(entities, sortie.landerId, id);
    if (isNew) newTanks.push({ op: "put", kind: "tank", value: tank });
    const ofThis = drawn.filter((row) => row.tank.propellantId === id);
    return linesOf(entities, books, sortie, input.at, tank, ofThis, lost.get(id) ?? 0);
  });
  // A lander's tank is left empty, which is said even where nothing was in it: what comes in before, later recorded, left too.
  const landerTanks = new Set([...propellantIds].map((id) => landerTank(entities, sortie.landerId, id).tank.id));
  const moved = lines.filter(
    ({ account, grams }) => grams !== 0 || account.kind === "transit" || landerTanks.has(account.ownerId),
  );
  const entry = entryOf({ at: input.at, kind: "loading", subjectKey: sortie.key, note: input.note }, moved, recorder);
  const changes = sortieEverywhere(entities, sortie.key, (row) => ({
    ...row,
    status: "departed",
    loadAt: input.at,
    returnAt: input.at + (row.returnAt - row.loadAt),
  }));
  const draft = {
    label: `${sortie.name} loaded and left`,
    changes: [...newTanks, ...changes],
    entries: entry === null ? [] : [entry],
  };
  return stepOf(withRestatement(books, draft, recorder), recorder);
};
