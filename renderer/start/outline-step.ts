/** An outline as one step of editing: everything that it names, ready for flights and sorties. */
import type { Change, Entity } from "../../app/entity/entities.ts";
import type { Input } from "../../app/contract/contract.ts";
import { toGrams } from "../../app/ledger/journal.ts";
import { kFromPercent } from "../../app/storage/rate-units.ts";
import { uniqueId } from "../names/new-id.ts";
import { type Outline, type OutlinePropellant, maximumFillKg } from "./outline.ts";

type Line = Entity<"craftClass">["propellants"][number];
type Opening = NonNullable<Input<"plan.edit">["openings"]>[number];

export interface OutlineStep {
  readonly changes: readonly Change[];
  readonly openings: readonly Opening[];
}

/** What the outline does not ask about, so that nobody takes it for a measured nought. */
const UNASKED = "Transfer loss, line chilldown, residual and loss on the way are taken as none until entered here.";

const carries = (propellantId: string, capacityKg: number, loadKg: number, returnKg: number): Line => ({
  propellantId,
  capacityKg,
  loadKg,
  returnKg,
  kPerDay: 0,
  cKgPerDay: 0,
  residualKg: 0,
  chilldownKg: 0,
  lossFraction: 0,
  rateKgPerDay: null,
});

/** Ids from names, each once. */
const idMaker = () => {
  const taken = new Set<string>();
  return (name: string, fallback: string): string => {
    const id = uniqueId(name, fallback, taken);
    taken.add(id);
    return id;
  };
};

/** `outline` must be without faults; what it leaves out is none. `planCaseId`: the case that gets the campaign. */
export const outlineStep = (outline: Outline, planCaseId: string): OutlineStep => {
  const newId = idMaker();
  const changes: Change[] = [];
  const openings: Opening[] = [];
  const depotId = newId(outline.depot, "depot");
  const source = { id: newId("Ground", "source"), name: "Ground", kind: "ground" as const, note: "", plant: null };
  const rows = outline.propellants.map((row) => ({ row, id: newId(row.what.name, "propellant") }));

  rows.forEach(({ row, id }, position) =>
    changes.push({ op: "put", kind: "propellant", value: { id, ...row.what, position } }),
  );
  changes.push({
    op: "put",
    kind: "depot",
    value: {
      id: depotId,
      name: outline.depot,
      orbit: "",
      windowPeriodDays: null,
      windowReferenceAt: null,
      ports: 1,
      note: "",
      windowList: null,
      lunarOrbit: null,
    },
  });
  changes.push({ op: "put", kind: "source", value: source });
  const addClass = (
    name: string,
    more: Pick<Entity<"craftClass">, "role" | "propellants" | "tripDays" | "berthDays">,
  ) => {
    const classId = newId(name, "class");
    const value = { id: classId, name, ...more, note: UNASKED, lander: null, turnaroundDays: 0, costPerFlight: null };
    changes.push({ op: "put", kind: "craftClass", value: { ...value, costUnit: "", hardwareKg: null } });
    const craftName = `${name} 1`;
    const craft = { id: newId(craftName, "craft"), classId, name: craftName, note: "", engineChanges: [] };
    return { op: "put", kind: "craft", value: craft } as const;
  };
  const crafts = [
    ...outline.tankers.map((tanker, index) =>
      addClass(tanker.name, {
        role: "tanker",
        propellants: rows.flatMap(({ row, id }) => {
          const kg = row.broughtKg[index] ?? 0;
          return kg === 0 ? [] : [carries(id, kg, kg, 0)];
        }),
        tripDays: tanker.transitDays ?? 0,
        berthDays: tanker.berthDays ?? 0,
      }),
    ),
    addClass(outline.lander, {
      role: "lander",
      propellants: rows.map(({ row, id }) => carries(id, row.neededKg ?? 0, row.neededKg ?? 0, row.returnedKg ?? 0)),
      tripDays: outline.daysAway ?? 0,
      berthDays: 0,
    }),
  ];
  changes.push(...crafts);
  for (const { row, id } of rows) {
    const tank = tankOf(row, { depotId, depot: outline.depot, propellantId: id, newId });
    changes.push({ op: "put", kind: "tank", value: tank });
    changes.push({ op: "put", kind: "lossPeriod", value: lossOf(row, tank, newId) });
    const grams = toGrams(row.openingKg ?? 0);
    if (grams === 0) continue;
    openings.push({
      id: `entry-${tank.id}`.slice(0, 64),
      at: outline.beginsAt ?? 0,
      kind: "opening",
      subjectKey: null,
      note: "",
      postings: [
        { account: { kind: "tank", ownerId: tank.id }, propellantId: id, grams },
        { account: { kind: "source", ownerId: source.id }, propellantId: id, grams: -grams },
      ],
    });
  }
  const key = newId("Campaign 1", "campaign");
  const campaign = { id: key, planCaseId, key, name: "Campaign 1", goal: "", holdLimitDays: 30 };
  changes.push({ op: "put", kind: "campaign", value: campaign });
  return { changes, openings };
};

interface Place {
  readonly depotId: string;
  readonly depot: string;
  readonly propellantId: string;
  readonly newId: (name: string, fallback: string) => string;
}

const tankOf = (row: OutlinePropellant, { depotId, depot, propellantId, newId }: Place): Entity<"tank"> => {
  const name = `${depot} ${row.what.name.toLowerCase()}`.slice(0, 80);
  return {
    id: newId(name, "tank"),
    ownerKind: "depot",
    ownerId: depotId,
    propellantId,
    name,
    volumeM3: row.volumeM3,
    ullagePercent: row.ullagePercent ?? 0,
    maximumFillKg: maximumFillKg(row) ?? 0,
    heelKg: 0,
    reserveKg: row.reserveKg ?? 0,
    rank: null,
  };
};

const lossOf = (row: OutlinePropellant, tank: Entity<"tank">, newId: Place["newId"]): Entity<"lossPeriod"> => ({
  id: newId(`${tank.name} loss`, "loss"),
  tankId: tank.id,
  planCaseId: null,
  fromAt: null,
  untilAt: null,
  basis: { kind: "stated", kPerDay: kFromPercent(row.lossPercentPerDay ?? 0, 1), cKgPerDay: 0 },
  reason: "stated when the ledger was begun",
  note: "",
});
