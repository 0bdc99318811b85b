/** One verdict: text, JSON, exit status and the report's first page say the same of the same plan. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import type { LedgerDocument } from "../../../app/ledger/ledger-view.ts";
import { demoBeck } from "../../../app/demo/beck.ts";
import type { SupplyAnswer } from "../../../app/supply/answer.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { temporaryFolder } from "../../app/records/hand-ledger.ts";
import { run } from "./terminal.ts";

const folder = temporaryFolder();
const DAY = 86_400_000;

const ledgerOf = (name: string, change: (document: LedgerDocument) => LedgerDocument["entities"]): string => {
  const path = join(folder, `${name}.coldstock`);
  const document = demoBeck();
  loadDocument(path, { ...document, entities: change(document) }).close();
  return path;
};

const verdictOf = async (path: string) => {
  const { status, out } = await run("check", path, "--json");
  const strict = await run("check", path, "--strict");
  const text = strict.out;
  const { verdict } = JSON.parse(out) as SupplyAnswer;
  expect(text).toContain(`\n${verdict.word}: ${verdict.sentence}\n`);
  return { verdict, status, strict: strict.status };
};

it("Go is 0, with --strict too", async () => {
  const seen = await verdictOf(ledgerOf("go", ({ entities }) => entities));
  expect(seen).toMatchObject({ verdict: { word: "Go" }, status: 0, strict: 0 });
});

it("Go, if is 0, and 1 with --strict", async () => {
  // Reserves as large as the tanks: every loading dips into them.
  const path = ledgerOf("thin", ({ entities }) => ({
    ...entities,
    tank: entities.tank.map((tank) => ({ ...tank, reserveKg: tank.maximumFillKg })),
  }));
  const seen = await verdictOf(path);
  expect(seen).toMatchObject({ verdict: { word: "Go, if" }, status: 0, strict: 1 });
  expect(seen.verdict.sentence).toMatch(/may use the reserve/);
  const { verdict } = seen;
  const paper = `${path}.html`;
  expect((await run("report", path, paper)).status).toBe(0);
  expect(readFileSync(paper, "utf8").replaceAll("&#39;", "'").replaceAll("&quot;", '"')).toContain(
    `<strong>${verdict.word}</strong> ${verdict.sentence}</p>`,
  );
});

it("one hull on two flights at once is No-go and 1, though every sortie is supplied", async () => {
  const path = ledgerOf("hull", ({ entities }) => {
    const first = entities.flight.find(({ status }) => status === "planned")!;
    const again = { ...first, id: "again", key: "again", name: "Again", departAt: first.departAt + DAY };
    return { ...entities, flight: [...entities.flight, { ...again, arriveAt: first.arriveAt + DAY }] };
  });
  const seen = await verdictOf(path);
  expect(seen).toMatchObject({ verdict: { word: "No-go" }, status: 1, strict: 1 });
  expect(seen.verdict.sentence).toMatch(/cannot fly .+ and Again at once/);
});

it("a sortie of a class that states no need is not supplied", async () => {
  const path = ledgerOf("unstated", ({ entities }) => ({
    ...entities,
    craftClass: entities.craftClass.map((row) => (row.role === "lander" ? { ...row, propellants: [] } : row)),
    sortie: entities.sortie.map((row) => ({ ...row, demand: { kind: "class" as const } })),
  }));
  const seen = await verdictOf(path);
  expect(seen).toMatchObject({ verdict: { word: "No-go" }, status: 1 });
  expect(seen.verdict.sentence).toMatch(/state no propellant|states no propellant/);
});

it("check --as-of leaves later records out and says so first; as-of pins the ledger and frees it", async () => {
  const path = join(folder, "back.coldstock");
  await run("demo", "tarn", path);
  const now = JSON.parse((await run("check", path, "--json")).out) as { asOfAt: number; lookBack: unknown };
  expect(now.lookBack).toBeNull();
  const then = new Date(now.asOfAt - 30 * DAY).toISOString();
  const { out } = await run("check", path, "--as-of", then);
  expect(out).toMatch(/^Looking back: this is what was known on .+ later records?, the last of .+ left out\.\n/);
  // The ledger itself stays as it was.
  expect((await run("as-of", path)).out).toMatch(/and follows the last record\.\n$/);
  expect((await run("check", path, "--as-of", then, "--risk")).status).toBe(2);
  expect((await run("as-of", path, then)).out).toMatch(/, pinned\.\nLooking back: /);
  const pinned = JSON.parse((await run("check", path, "--json")).out) as { lookBack: { leftOut: number } };
  expect(pinned.lookBack.leftOut).toBeGreaterThan(0);
  const paper = `${path}.html`;
  await run("report", path, paper);
  const html = readFileSync(paper, "utf8");
  expect(html.indexOf("Looking back: this is what")).toBeGreaterThan(0);
  expect(html.indexOf("Looking back: this is what")).toBeLessThan(html.indexOf("<strong>"));
  for (const command of [["storage"], ["schedule", "--leave-by"]])
    expect((await run(command[0]!, path, ...command.slice(1))).out).toMatch(/^Looking back: /);
  const calendar = `${path}.ics`;
  await run("report", path, calendar);
  expect(readFileSync(calendar, "utf8")).toContain("X-WR-CALDESC:Looking back: this is what was known");
  expect((await run("as-of", path, "--follow")).out).toMatch(/and follows the last record\.\n$/);
});
