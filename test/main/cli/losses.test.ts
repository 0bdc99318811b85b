/** `losses` and `storage` on the demonstration: statement to the gram, fit, adoption and its undoing, what is refused. */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Input, OperationName, Output } from "../../../app/contract/contract.ts";
import { demoTarn } from "../../../app/demo/tarn.ts";
import type { HeatBalance } from "../../../app/entity/heat-balance.ts";
import type { FitResult } from "../../../app/losses/fit/fit-result.ts";
import type { LossBook } from "../../../app/losses/loss-book.ts";
import { imbalance } from "../../../app/losses/statement.ts";
import { doubleAluminisedMylarSilkNet } from "../../../app/storage/insulation-material.ts";
import type { TankStorage } from "../../../app/storage/tank-storage.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { valueOf } from "../../../main/page/door.ts";
import { composeService } from "../../../main/service/compose.ts";
import { run } from "./terminal.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-losses-"));
const ledger = join(folder, "tarn.coldstock");
const service = composeService(false, () => undefined);
beforeAll(() => loadDocument(ledger, demoTarn()).close());
afterAll(async () => {
  await service.close();
  rmSync(folder, { recursive: true, force: true });
});

test("the statement adds up to the gram, month by month, and the months join", async () => {
  const { status, out } = await run("losses", ledger, "--json");
  expect(status).toBe(0);
  const book = JSON.parse(out) as LossBook;
  expect(book.statements).toHaveLength(3);
  for (const { lines, total } of book.statements) {
    expect(lines.length).toBeGreaterThan(4);
    for (const [place, line] of lines.entries()) {
      expect(imbalance(line)).toBe(0);
      expect(line.openingGrams).toBe(lines[place - 1]?.closingGrams ?? line.openingGrams);
    }
    expect(imbalance(total)).toBe(0);
  }
  expect(book.comparisons.some((row) => row.differenceInSigma !== null)).toBe(true);
  const text = await run("losses", ledger, "--from", "2031-02-01", "--until", "2031-03-01");
  expect(text.out).toContain("2031-02");
  expect(text.out).not.toContain("2031-03 ");
  expect((await run("losses", ledger, "--mission-start", "2030-12-01")).out).toContain("mission month 2");
});

test("the month is printed: the report's table of it has the statement's grams", async () => {
  const file = join(folder, "may.csv");
  const span = ["--from", "2031-05-01", "--until", "2031-06-01"] as const;
  const printed = await run("report", ledger, file, ...span, "--unit", "kg", "--table", "losses-tarn-hydrogen");
  expect(printed.status).toBe(0);
  const book = JSON.parse((await run("losses", ledger, ...span, "--json")).out) as LossBook;
  const hydrogen = book.statements.find(({ propellantId }) => propellantId === "hydrogen")!;
  const row = readFileSync(file, "utf8")
    .split(/\r?\n/)
    .find((line) => line.startsWith("2031-05"));
  expect(row).toContain((hydrogen.lines[0]!.boilOffGrams / 1000).toFixed(3));
  expect(row).toContain((hydrogen.lines[0]!.closingGrams / 1000).toFixed(3));
});

test("a fit by name of the tank; what it cannot do is said with status 2", async () => {
  const { status, out } = await run("losses", ledger, "--fit", "tarn-oxygen", "--json");
  expect(status).toBe(0);
  expect((JSON.parse(out) as FitResult).readings).toHaveLength(6);
  const none = await run("losses", ledger, "--fit", "nowhere");
  expect(none.status).toBe(2);
  expect(none.err).toContain("There are: ");
  const short = await run("losses", ledger, "--fit", "tarn-oxygen", "--part", "both", "--from", "2031-04-20");
  expect(short.status).toBe(2);
  expect(short.err).toContain("Two readings cannot tell k from c");
  expect((await run("losses", ledger, "--from", "31 February")).status).toBe(2);
});

const ask = async <N extends OperationName>(name: N, input: Input<N>): Promise<Output<N>> =>
  valueOf(await service.call(name, input));

test("a fit is adopted from a date, the forecast says so, undo takes it back; a heat balance that cannot be is refused whole", async () => {
  const info = await ask("ledger.open", { path: ledger });
  const planCaseId = info.planCases[0]!.id;
  const before = await ask("plan.view", { planCaseId });
  const fit = {
    planCaseId,
    tankId: "tarn-hydrogen",
    fromAt: Date.UTC(2031, 1, 1),
    untilAt: info.asOfAt,
    fitted: "k" as const,
    held: null,
    rateChanges: "apart" as const,
    leftOutIds: [],
  };
  const after = await ask("losses.adopt", {
    fit,
    id: "measured-spring",
    fromAt: info.asOfAt,
    scope: "all plan cases",
    reason: "measured, February to May",
  });
  expect(after.undoLabel).toContain("Adopt the fitted rate");
  const adopted = (await ask("plan.view", { planCaseId })).plan.lossPeriods.find(
    (period) => period.id === "measured-spring",
  );
  expect(adopted).toMatchObject({ planCaseId: null, fromAt: info.asOfAt, basis: { kind: "measured", fitted: "k" } });
  const shown = JSON.parse((await run("storage", ledger, "--tank", "tarn-hydrogen", "--json")).out) as {
    tanks: TankStorage[];
  };
  expect(shown.tanks[0]!.period?.reason).toBe("measured, February to May");
  await ask("plan.undo", {});
  expect((await ask("plan.view", { planCaseId })).plan.lossPeriods).toEqual(before.plan.lossPeriods);

  const blanket = {
    kind: "layers" as const,
    areaM2: 120,
    material: doubleAluminisedMylarSilkNet,
    layers: 45,
    layersPerCm: 10.055,
    hotK: 305,
    residualGasTorr: 0,
    degradationFactor: 2,
  };
  const basis: HeatBalance = {
    kind: "heat balance",
    fluid: "H2",
    pressureKPa: 101.325,
    insulation: blanket,
    paths: [],
    environmentFactor: 1,
    coolers: [],
  };
  const put = (value: HeatBalance) =>
    ask("plan.edit", {
      label: "Describe the insulation",
      reason: "",
      changes: [
        {
          op: "put",
          kind: "lossPeriod",
          value: {
            id: "blanket",
            tankId: "tarn-hydrogen",
            planCaseId: null,
            fromAt: info.asOfAt,
            untilAt: null,
            basis: value,
            reason: "blanket",
            note: "",
          },
        },
      ],
    });
  await expect(put({ ...basis, insulation: { ...blanket, layers: 0 } })).rejects.toThrow(/one layer or more/);
  await expect(put({ ...basis, insulation: { ...blanket, hotK: 15 } })).rejects.toThrow(/colder than the liquid/);
  expect((await ask("plan.view", { planCaseId })).plan.lossPeriods).toEqual(before.plan.lossPeriods);

  await put(basis);
  const sheet = await run("storage", ledger, "--tank", "tarn-hydrogen", "--relief", "200");
  // 0.18157 W/m² bare (Keller form), twice that installed, on 120 m²: 43.58 W.
  expect(sheet.out).toMatch(/Insulation +43\.5[78]/);
  expect(sheet.out).toContain("installed leak 2 × bare");
  expect(sheet.out).toContain("1.5 to 3 times faster");
  expect(sheet.out).toMatch(/Closed, without a cooler: it reaches that pressure after/);
  expect(sheet.out).toMatch(/% in 30 days \(constant\)/);
  expect(sheet.out).toMatch(/not tested with cold sides under 70 K/);
  const lift = [{ temperatureK: 20, liftW: 20 }];
  const cooler = { name: "Cooler", lift, powerW: 3000, massKg: 200, isRunning: true, note: "" };
  await put({ ...basis, coolers: [cooler] });
  const cooled = await run("storage", ledger, "--tank", "tarn-hydrogen", "--relief", "200");
  expect(cooled.out).toMatch(/Closed, with the coolers as described \(20\.0 W of lift\): .* With no cooler running: /);
});
