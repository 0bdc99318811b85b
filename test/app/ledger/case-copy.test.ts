/** Copies of plan cases: the same plan under other ids, and nothing left when one is deleted. */
import { describe, expect, it } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { applyChanges } from "../../../app/entity/apply-changes.ts";
import { copyCase, removeCase } from "../../../app/ledger/case-copy.ts";
import type { EntitySet } from "../../../app/entity/entities.ts";

const sorted = (set: EntitySet): EntitySet =>
  Object.fromEntries(
    Object.entries(set).map(([kind, rows]) => [kind, rows.toSorted((a, b) => (a.id < b.id ? -1 : 1))]),
  ) as unknown as EntitySet;
const before = sorted(demoTarn().entities);
let count = 0;
const copy = (fromId: string, newId = "copied") =>
  applyChanges(
    before,
    copyCase(before, { fromId, newId, name: "Copied" }, (kind) => `${kind.toLowerCase()}-c${++count}`),
  );

const owned = ["lossPeriod", "campaign", "flight", "sortie"] as const;
/** A case's rows without what must differ, in order of key or date. */
const plain = (set: EntitySet, planCaseId: string) =>
  owned.map((kind) =>
    set[kind]
      .filter((row) => row.planCaseId === planCaseId)
      .map(({ id: _id, planCaseId: _case, ...row }) =>
        JSON.stringify("campaignId" in row ? { ...row, campaignId: null } : row),
      )
      .sort(),
  );

describe("a copy", () => {
  it.each(before.planCase.map(({ id }) => id))("of %s has the same plan, keys and all", (id) => {
    const after = copy(id);
    expect(plain(after, "copied")).toEqual(plain(before, id));
    expect(plain(after, id)).toEqual(plain(before, id));
  });

  it("shares no id with any other row, and its sorties are of its own campaigns", () => {
    const after = copy("baseline");
    for (const kind of owned) expect(new Set(after[kind].map(({ id }) => id)).size).toBe(after[kind].length);
    const campaigns = new Set(after.campaign.filter((row) => row.planCaseId === "copied").map(({ id }) => id));
    for (const sortie of after.sortie.filter((row) => row.planCaseId === "copied"))
      expect(campaigns.has(sortie.campaignId)).toBe(true);
  });

  it("stands last and knows whence it came", () => {
    const row = copy("baseline").planCase.find(({ id }) => id === "copied")!;
    expect(row).toMatchObject({ name: "Copied", basedOnId: "baseline" });
    expect(row.position).toBe(Math.max(...before.planCase.map(({ position }) => position)) + 1);
  });

  it("is refused under an id that is taken, or of a case that is not there", () => {
    expect(() => copy("baseline", "baseline")).toThrow(
      expect.objectContaining({ code: "refused", field: "newId" }) as Error,
    );
    expect(() => copy("none")).toThrow(expect.objectContaining({ code: "not found", field: "fromId" }) as Error);
  });
});

describe("a deletion", () => {
  it("of a copy brings back what was before", () => {
    const after = copy("baseline");
    expect(applyChanges(after, removeCase(after, "copied"))).toEqual(before);
  });

  it("lets cases that were copied from it stand", () => {
    const after = copy("baseline");
    const left = applyChanges(after, removeCase(after, "baseline"));
    expect(left.planCase.map(({ basedOnId }) => basedOnId)).not.toContain("baseline");
    expect(plain(left, "copied")).toEqual(plain(before, "baseline"));
    for (const kind of owned) expect(left[kind].filter((row) => row.planCaseId === "baseline")).toEqual([]);
  });

  it("of what is not there is refused", () =>
    expect(() => removeCase(before, "none")).toThrow(expect.objectContaining({ code: "not found" }) as Error));
});
