/** The session: shows an edit at once, takes it back when it is refused, follows what changes elsewhere. */
import { describe, expect, it } from "vitest";
import { createClient } from "../../../renderer/state/client.ts";
import { type AppState, initialState } from "../../../renderer/state/app-state.ts";
import { shownOnlyRefusal } from "../../../renderer/state/shown-only.ts";
import { createSession } from "../../../renderer/state/session.ts";
import { AS_PLANNED } from "../../../app/supply/supposed.ts";
import { endTrial, suppose } from "../../../renderer/state/trial.ts";
import { createStore } from "../../../renderer/state/store.ts";
import { day } from "../timeline/small-plan.ts";
import { fakeBridge } from "./fake-bridge.ts";

const started = async () => {
  const fake = fakeBridge();
  const store = createStore<AppState>(initialState);
  const session = createSession(createClient(fake.bridge), store);
  await session.refresh();
  const flight = () => store.get().current!.plan.flights[0]!;
  const later = () => [{ op: "put" as const, kind: "flight" as const, value: { ...flight(), departAt: day(12) } }];
  return { fake, store, session, flight, later };
};

it("fetches the ledger and its first case, and forecasts it", async () => {
  const { store } = await started();
  const { phase, planCaseId, current } = store.get();
  expect([phase, planCaseId]).toEqual(["ready", "baseline"]);
  expect(current!.glance.sorties.map((sortie) => sortie.sortieId)).toEqual(["sortie-1", "sortie-2"]);
});

describe("an edit", () => {
  it("is shown before the service has answered, then confirmed", async () => {
    const { fake, store, session, flight, later } = await started();
    const answerNow = fake.hold();
    const reply = session.edit("Move Wagon 1", later());
    expect(flight().departAt).toBe(day(12));
    expect(store.get().ledger!.revision).toBe(1);
    answerNow();
    expect((await reply).ok).toBe(true);
    expect(store.get().ledger).toMatchObject({ revision: 2, undoLabel: "Move Wagon 1" });
    expect(flight().departAt).toBe(day(12));
  });

  it("that is confirmed as it was shown leaves the plan on screen the same object: what is held then stays held", async () => {
    const { fake, store, session, later } = await started();
    const answerNow = fake.hold();
    const reply = session.edit("Move Wagon 1", later());
    const shown = store.get().current;
    answerNow();
    await reply;
    expect(store.get().current).toBe(shown);
  });

  it("that is refused is taken back, and the caller has the reason", async () => {
    const { fake, session, flight, later } = await started();
    fake.refuse = { code: "refused", message: "Wagon 1 is already under way.", field: "changes.0.value.departAt" };
    const reply = await session.edit("Move Wagon 1", later());
    expect(reply.ok ? null : reply.failure.message).toBe("Wagon 1 is already under way.");
    expect(flight().departAt).toBe(day(10));
  });
});

describe("what is supposed of a flight", () => {
  const late = { isLost: false, slipDays: 2, loadShare: 1 };

  it("is on screen at once, beside the saved plan, and nothing of it is sent", async () => {
    const { store, flight } = await started();
    const saved = store.get().current;
    suppose(store, flight().key, late);
    expect(flight().departAt).toBe(day(12));
    expect(store.get().compare).toBe(saved);
    expect(store.get().ledger!.revision).toBe(1);
    endTrial(store);
    expect(store.get()).toMatchObject({ current: saved, compare: null, trial: null });
  });

  it("lets nothing be edited meanwhile: the plan on screen is not the one that is saved", async () => {
    const { store, session, flight, later } = await started();
    suppose(store, flight().key, late);
    const reply = await session.edit("Move Wagon 1", later());
    expect(reply.ok ? null : reply.failure.message).toContain("nothing is saved");
    expect(store.get().ledger!.revision).toBe(1);
  });

  it("ends where it is put back as planned, and where another case is chosen or the ledger is fetched anew", async () => {
    const { store, session, flight } = await started();
    const saved = store.get().current;
    suppose(store, flight().key, late);
    suppose(store, flight().key, AS_PLANNED);
    expect(store.get()).toMatchObject({ trial: null, current: saved });
    suppose(store, flight().key, late);
    await session.refresh();
    expect(store.get().trial).toBeNull();
    expect(flight().departAt).toBe(day(10));
  });
});

it("what is selected goes when it is no longer in the plan", async () => {
  const { store, session } = await started();
  session.select({ kind: "flight", id: "nothing-of-this-plan" });
  await session.refresh();
  expect(store.get().selection).toBeNull();
  session.select({ kind: "entry", id: "a-record" });
  await session.refresh();
  expect(store.get().selection).toEqual({ kind: "entry", id: "a-record" });
});

it("a view that was fetched before the next edit does not undo it on screen", async () => {
  const fake = fakeBridge();
  const store = createStore<AppState>(initialState);
  const first = Promise.withResolvers<void>();
  const isAsked = Promise.withResolvers<void>();
  let isSlow = false;
  const slow = {
    ...fake.bridge,
    call: async (...asked: Parameters<typeof fake.bridge.call>) => {
      const answer = await fake.bridge.call(...asked);
      if (isSlow && asked[0] === "plan.view") {
        isSlow = false;
        isAsked.resolve();
        await first.promise;
      }
      return answer;
    },
  } as typeof fake.bridge;
  const session = createSession(createClient(slow), store);
  await session.refresh();
  const flight = () => store.get().current!.plan.flights[0]!;
  const moveTo = (days: number) =>
    session.edit("Move", [{ op: "put", kind: "flight", value: { ...flight(), departAt: day(days) } }]);
  isSlow = true;
  const one = moveTo(12);
  await isAsked.promise;
  const shown: number[] = [];
  const two = moveTo(14);
  store.subscribe(() => shown.push(flight().departAt));
  first.resolve();
  await Promise.all([one, two]);
  expect(new Set(shown)).toEqual(new Set([day(14)]));
  expect(store.get().ledger!.revision).toBe(3);
});

it("requests that come while one is under way are joined into one more", async () => {
  const { fake, session } = await started();
  fake.calls.length = 0;
  await Promise.all([session.refresh(), session.refresh(), session.refresh(), session.refresh()]);
  expect(fake.calls.filter((name) => name === "plan.view")).toHaveLength(2);
});

it("a failure is told once, however often it comes", async () => {
  const { store, session } = await started();
  session.fail({ code: "storage", message: "The disk is full.", field: null });
  session.fail({ code: "storage", message: "The disk is full.", field: null });
  expect(store.get().notices.map((notice) => notice.words)).toEqual(["The disk is full."]);
  session.fail({ code: "cancelled", message: "Stopped.", field: null });
  expect(store.get().notices).toHaveLength(1);
});

describe("a ledger shown to others", () => {
  const shown = async () => {
    const fake = fakeBridge();
    const store = createStore<AppState>(initialState);
    const client = createClient(fake.bridge, () => shownOnlyRefusal(store.get()));
    const session = createSession(client, store);
    await session.refresh();
    const flight = store.get().current!.plan.flights[0]!;
    const later = [{ op: "put" as const, kind: "flight" as const, value: { ...flight, departAt: day(12) } }];
    return { fake, store, session, client, flight, later };
  };

  it("takes no edit and no other command, and says how to end it; what asks is answered", async () => {
    const { fake, store, session, client, flight, later } = await shown();
    session.showOnly(true);
    await session.refresh();
    expect(store.get().ledger!.readOnlyBecause).toBe("shown to others");
    const edited = await session.edit("Move Wagon 1", later);
    expect(edited.ok ? null : edited.failure.message).toContain("Read-only");
    expect(store.get().current!.plan.flights[0]!.departAt).toBe(flight.departAt);
    for (const reply of [await client.call("plan.undo", {}), await client.call("ledger.asOf", { asOfAt: null })])
      expect(reply.ok).toBe(false);
    expect(fake.calls).not.toContain("plan.edit");
    expect((await client.call("ledger.info", {})).ok).toBe(true);
  });

  it("is as it was when it ends", async () => {
    const { store, session, later } = await shown();
    session.showOnly(true);
    session.showOnly(false);
    await session.refresh();
    expect(store.get().ledger!.readOnlyBecause).toBeNull();
    expect((await session.edit("Move Wagon 1", later)).ok).toBe(true);
  });
});
