/** A lander that is recorded to have left has come home before, whatever its earlier sortie was assumed to do. */
import { expect, test } from "vitest";
import { unbalanced } from "../../../app/forecast/balance.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import { recordLoading } from "../../../app/records/record-loading.ts";
import { day, handLedger, recorder, stepWith, temporaryFolder } from "./hand-ledger.ts";

const folder = temporaryFolder();

test("an earlier sortie without a record of its return is home when the next one leaves, and nothing is lost", () => {
  const store = handLedger(folder);
  const first = store.entities().sortie.find(({ id }) => id === "base.first");
  const second = { ...first!, id: "base.second", key: "second", name: "Second", loadAt: day(60), returnAt: day(70) };
  store.commit(stepWith({ changes: [{ op: "put", kind: "sortie", value: second }] }));
  const load = (sortieId: string, at: number, hydrogenKg: number) =>
    store.commit(
      recordLoading(
        store,
        { sortieId, at, drawn: [{ tankId: "mere-lh2", massKg: hydrogenKg }], handoverLoss: [], note: "" },
        recorder,
      ),
    );
  load("base.first", day(30), 300);
  const planned = planView(store, "base").plan.sorties.find(({ id }) => id === "base.first")?.returnAt ?? 0;
  // Loaded again five days before it was to be back, with 280 kg on top of the 20 kg that the first one brings home.
  load("base.second", planned - 5 * 86_400_000, 280);
  const seen = forecast(planView(store, "base").plan);
  store.close();
  const [out, next] = ["base.first", "base.second"].map((id) => seen.sorties.find(({ sortieId }) => sortieId === id));
  expect(out).toMatchObject({ returnAt: planned - 5 * 86_400_000 });
  expect(out?.lines.find(({ propellantId }) => propellantId === "lh2")).toMatchObject({ returnedKg: 20 });
  expect(next?.lines.find(({ propellantId }) => propellantId === "lh2")).toMatchObject({
    returnedKg: 20,
    surplusKg: 0,
  });
  expect(unbalanced(seen.balances)).toEqual([]);
});
