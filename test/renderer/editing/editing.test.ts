/** Where a fault lies: in which field, and in whose words. */
import { expect, it } from "vitest";
import { checkEntity, faultOfFailure, wordsBeside, wordsFor } from "../../../renderer/editing/editing.ts";
import { freshEntity } from "../../../renderer/forms/fresh.ts";
import { withNewId } from "../../../renderer/forms/place-entity.ts";
import { entityKinds } from "../../../app/entity/entities.ts";
import { smallPlan } from "../timeline/small-plan.ts";

it("a refusal of the service is laid at the field of the thing", () => {
  const fault = faultOfFailure({
    code: "refused",
    message: "It cannot arrive before it departs.",
    field: "changes.0.value.arriveAt",
  });
  expect(wordsFor(fault, "arriveAt")).toBe("It cannot arrive before it departs.");
  expect(wordsFor(fault, "departAt")).toBeNull();
  expect(wordsFor({ field: "loads.0.loadedKg", message: "too much" }, "loads")).toBe("too much");
});

it("a fault of something that no field shows is said beside the form", () => {
  const [flight] = smallPlan().flights;
  expect(wordsBeside({ field: "id", message: "This id is taken." }, flight!)).toBe("This id is taken.");
  expect(wordsBeside({ field: "", message: "The plan is read-only." }, flight!)).toBe("The plan is read-only.");
  expect(wordsBeside({ field: "loads.0.loadedKg", message: "too much" }, flight!)).toBeNull();
  expect(wordsBeside(null, flight!)).toBeNull();
});

it("a name left empty is found before anything is sent", () => {
  const [flight] = smallPlan().flights;
  expect(checkEntity("flight", { ...flight!, name: "" })).toEqual({ field: "name", message: "a name is needed" });
  expect(checkEntity("flight", flight!)).toBeNull();
});

it("a new thing of every kind lacks nothing but a name, and gets an id that is free", () => {
  const plan = smallPlan();
  for (const kind of entityKinds) {
    if (kind === "planCase") continue;
    const fresh = freshEntity(kind, { plan, at: null, nearId: null });
    if (!fresh.ok) throw new Error(`${kind}: ${fresh.missing}`);
    const named = { ...fresh.value, name: "Wagon 1", reason: "cooler running", symbol: "X" };
    const bare = Object.fromEntries(
      Object.entries(named).filter(([field]) => field in fresh.value),
    ) as typeof fresh.value;
    const placed = withNewId(plan, kind, bare);
    expect([kind, checkEntity(kind, placed)]).toEqual([kind, null]);
  }
});

it("in an empty ledger it says what must be there first", () => {
  const plan = smallPlan({
    propellants: [],
    depots: [],
    sources: [],
    craftClasses: [],
    craft: [],
    tanks: [],
    lossPeriods: [],
    campaigns: [],
    flights: [],
    sorties: [],
    riskInputs: [],
  });
  const missing = (kind: "tank" | "flight" | "sortie" | "lossPeriod" | "craft") => {
    const fresh = freshEntity(kind, { plan, at: null, nearId: null });
    return fresh.ok ? "" : fresh.missing;
  };
  expect(missing("tank")).toContain("Add a propellant first");
  expect(missing("lossPeriod")).toContain("Add a tank first");
  expect(missing("flight")).toContain("Add a depot first");
  expect(missing("sortie")).toContain("Add a depot first");
  expect(missing("craft")).toContain("Add a craft class first");
});
