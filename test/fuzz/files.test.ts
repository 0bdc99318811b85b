/**
 * Files that are spoiled: exported ledgers, tables, workbooks, calendars, ledger files, and questions of the contract.
 * Whatever comes, the answer is a sentence or something that was read; never a defect of the program, never a hang,
 * never something half-written. Inputs whose answer is new, or that run a part of the
 * program that none before has run, are kept and spoiled further.
 * `COLDSTOCK_FUZZ_INPUTS=1000000` tries more than 20,000, `COLDSTOCK_FUZZ_SEED=…` repeats a run.
 */
import { mkdtempSync, existsSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { unzipSync, zipSync } from "fflate";
import { afterAll, beforeAll, expect, it, vi } from "vitest";
import type { OperationName } from "../../app/contract/contract.ts";
import type { Reply } from "../../app/ground/failure.ts";
import { documentText } from "../../app/exchange/ledger-document.ts";
import { openLedger } from "../../db/ledger.ts";
import { askEdit, makeSmallLedger } from "../crash/edit-stream.ts";
import { startTestService, type TestService } from "../main/service/test-service.ts";
import { chances, spoiled } from "./mutations.ts";
import { countReached } from "./reached.ts";

const INPUTS = Number(process.env["COLDSTOCK_FUZZ_INPUTS"] ?? 20_000);
const seed = Number(process.env["COLDSTOCK_FUZZ_SEED"] ?? Date.now() % 1e9);
/** A hang is what takes longer; a busy machine may take long for what is no hang. */
const HANGS_FROM_MS = 5000;
/** As many inputs that found something new are kept. */
const MAX_KEPT = 400;

// A million inputs take their time.
vi.setConfig({ testTimeout: 120_000 + INPUTS * 20 });

const folder = mkdtempSync(join(tmpdir(), "coldstock-fuzz-"));
let rig: TestService;
afterAll(async () => {
  await rig.end();
  rmSync(folder, { recursive: true, force: true });
});

interface Target {
  /** Of all inputs. */
  readonly share: number;
  readonly tokens: readonly string[];
  readonly seeds: readonly Buffer[];
  /** Answers; throws, in words, where something is wrong that the answer does not show. */
  readonly ask: (bytes: Buffer) => Promise<Reply<unknown>>;
}

const ask = async (name: OperationName, input: unknown): Promise<Reply<unknown>> =>
  await rig.service.dispatch(name, input);
const must = async (name: OperationName, input: unknown): Promise<unknown> => {
  const reply = await ask(name, input);
  if (!reply.ok) throw new Error(`${name}: ${reply.failure.message}`);
  return reply.value;
};

const askRows = async (fileName: string, bytes: Buffer): Promise<Reply<unknown>> =>
  await ask("rows.preview", {
    kind: null,
    planCaseId: "baseline",
    sheet: null,
    source: { fileName, base64: bytes.toString("base64") },
    mapping: { columns: [], dates: null, decimals: null, separator: null },
  });

/** A ledger from a document: whole and sound, or no file at all. */
const askImport = async (bytes: Buffer): Promise<Reply<unknown>> => {
  const path = join(folder, "imported.coldstock");
  const before = (await must("ledger.info", {})) as { path: string };
  const reply = await ask("ledger.import", { path, text: bytes.toString("utf8") });
  if (!reply.ok) {
    const left = readdirSync(folder).filter((name) => name.startsWith("imported"));
    if (left.length > 0) throw new Error(`refused, and there is ${left.join(", ")}`);
    return reply;
  }
  const check = (await must("ledger.verify", {})) as { isSound: boolean; faults: string[] };
  await must("ledger.open", { path: before.path });
  rmSync(path, { force: true });
  if (!check.isSound) throw new Error(`taken, and not sound: ${check.faults[0]}`);
  return reply;
};

/** A ledger file opened, read whole and checked; refused, it is as it was. */
const askOpen = async (bytes: Buffer): Promise<Reply<unknown>> => {
  const path = join(folder, "spoiled.coldstock");
  writeFileSync(path, bytes);
  const before = (await must("ledger.info", {})) as { path: string };
  const reply = await ask("ledger.open", { path });
  const answers = reply.ok ? [await ask("ledger.verify", {}), await ask("ledger.export", {})] : [];
  if (reply.ok) await must("ledger.open", { path: before.path });
  else if (!readFileSync(path).equals(bytes)) throw new Error("refused, and changed");
  for (const name of readdirSync(folder)) if (name.startsWith("spoiled")) rmSync(join(folder, name), { force: true });
  return answers.find((answer) => !answer.ok) ?? reply;
};

/** Any text as a question: the operation, then its input as JSON. */
const askContract = async (bytes: Buffer): Promise<Reply<unknown>> => {
  const [name = "", ...rest] = bytes.toString("utf8").split(" ");
  let input: unknown = rest.join(" ");
  try {
    input = JSON.parse(rest.join(" "));
  } catch {
    // The text itself, then.
  }
  // Nothing may be made or opened by name here: those have targets of their own.
  return /^(ledger|copies|merge)\./.test(name)
    ? await ask("ledger.info", input)
    : await ask(name as OperationName, input);
};

const csv = [
  "Flight,Vehicle,Launch site,Depot,Departure (UTC),Arrival (UTC),O2 [t],H2 [t]\nPackhorse 20,Packhorse hull 2,Ground,Tarn,2032-03-01 06:30,2032-03-07 06:30,4.5,1.9\n",
  "tank;at;mass [kg];sigma\nOxygen;2031-05-02T10:00Z;19 000,5;50\nHydrogen;02.05.2031 10:00;4.100,25;25\n",
  'Sortie\tLander\tLoads\tReturns\n"Sortie ""9"""\tHeron 1\t2031-09-01\t2031-10-01\n',
].map((text) => Buffer.from(text));

const targets: Record<string, Target> = {};

beforeAll(async () => {
  rig = startTestService();
  await rig.service.call("ledger.demo", { path: rig.path("tarn"), which: "tarn" });
  const calendar = (await must("rows.export", { kind: "flights", planCaseId: "baseline", format: "csv" })) as {
    base64?: string;
    text?: string;
  };
  const table = Buffer.from(calendar.text ?? Buffer.from(calendar.base64 ?? "", "base64").toString("utf8"));
  const book = (await must("rows.export", { kind: "flights", planCaseId: "baseline", format: "xlsx" })) as {
    base64: string;
  };
  const choices = { planCaseId: "baseline", compareId: null, fromAt: null, untilAt: null, massUnit: "t", paper: "A4" };
  const ics = (await must("report.write", {
    of: { kind: "draft", choices: { ...choices, sectionIds: ["verdict"] } },
    form: "ics",
    tableId: null,
  })) as { base64: string };
  const small = startTestService();
  const child = {
    ask: small.service.call,
    must: async (name: never, input: never) => {
      const reply = await small.service.call(name, input);
      if (!reply.ok) throw new Error("the small ledger could not be made");
      return reply.value;
    },
  } as never;
  await makeSmallLedger(child, small.path("small"));
  for (let n = 1; n <= 6; n += 1) await askEdit(child, n);
  const exported = await small.service.call("ledger.export", {});
  const document = exported.ok ? documentText(exported.value) : "";
  await small.service.call("ledger.copy", { path: small.path("copy") });
  const file = readFileSync(small.path("copy"));
  await small.end();
  const workbook = Buffer.from(book.base64, "base64");
  // Packed without compression, so that what is spoiled is the table and not its packing.
  const plain = Buffer.from(zipSync(unzipSync(workbook), { level: 0 }));
  Object.assign(targets, {
    document: {
      share: 0.52,
      tokens: ['"kind":', '"entities":', '"id":"tarn"', '"postings":[', '"grams":', ",", "]}", '"version":2', "true"],
      seeds: [Buffer.from(document)],
      ask: askImport,
    },
    table: {
      share: 0.06,
      tokens: ['"', ",", ";", "\t", "\n", "O2 [lb]", "[kg]", "Arrival", "31/02/2031", "1.234,5", "(UTC+14)", "=cmd"],
      seeds: [...csv, table],
      ask: async (bytes) => await askRows("rows.csv", bytes),
    },
    calendar: {
      share: 0.08,
      tokens: [
        "BEGIN:VEVENT\r\n",
        "END:VEVENT\r\n",
        "RRULE:FREQ=SECONDLY\r\n",
        "DTSTART;TZID=None:",
        "DURATION:P9999999W\r\n",
      ],
      seeds: [Buffer.from(ics.base64, "base64").subarray(0, 6000)],
      ask: async (bytes) => await askRows("plan.ics", bytes),
    },
    workbook: {
      share: 0.03,
      tokens: ['t="s"', "<v>", "</v>", '<c r="XFD1048576">', "<row", "PK\u0003\u0004", "PK\u0005\u0006"],
      seeds: [plain, workbook],
      ask: async (bytes) => await askRows("rows.xlsx", bytes),
    },
    ledger: { share: 0.008, tokens: [], seeds: [file], ask: askOpen },
    contract: {
      share: 0.302,
      tokens: ['"planCaseId":', '"op":"put"', '"kind":"flight"', "baseline", "[[[[", '{"a":', "1e999"],
      seeds: [
        'plan.view {"planCaseId":"baseline"}',
        'plan.edit {"label":"x","reason":"","changes":[{"op":"remove","kind":"flight","id":"none"}]}',
        'supply.check {"planCaseId":"baseline"}',
        'journal.page {"fromAt":null,"untilAt":null,"accountKind":null,"ownerId":null,"propellantId":null,"subjectKey":null,"text":"","offset":0,"limit":10}',
        'plan.history {"offset":0,"limit":10}',
      ].map((text) => Buffer.from(text)),
      ask: askContract,
    },
  } satisfies Record<string, Target>);
});

/** An answer without what is only this input's: numbers, names in quotes. */
const shapeOf = (reply: Reply<unknown>): string =>
  reply.ok
    ? "read"
    : `${reply.failure.code}: ${reply.failure.message.replaceAll(/[“"'][^”"']*[”"']|\d+/g, "·").slice(0, 160)}`;

/** What is wrong with an answer; null: nothing. */
const faultOf = (reply: Reply<unknown>, ms: number): string | null => {
  if (ms > HANGS_FROM_MS) return `took ${Math.round(ms)} ms`;
  if (reply.ok) return null;
  if (reply.failure.code === "defect") return `a defect: ${rig.defects.at(-1)?.slice(0, 600)}`;
  return /\bat \S+:\d+:\d+|node_modules|\[object /.test(reply.failure.message)
    ? `no sentence: ${reply.failure.message}`
    : null;
};

/** Inputs between two looks at what has run: a look takes as long as a few inputs do. */
const BATCH = 25;

interface Tried {
  readonly reply: Reply<unknown> | null;
  readonly fault: string | null;
}

const tryOn = async (target: Target, bytes: Buffer): Promise<Tried> => {
  const from = performance.now();
  try {
    const reply = await target.ask(bytes);
    return { reply, fault: faultOf(reply, performance.now() - from) };
  } catch (error) {
    return { reply: null, fault: error instanceof Error ? error.message : String(error) };
  }
};

it.for(["document", "table", "calendar", "workbook", "ledger", "contract"])("%s", async (name, { task }) => {
  const target = targets[name];
  if (target === undefined) throw new Error("no such target");
  const chance = chances(seed);
  const kept = [...target.seeds];
  const shapes = new Set<string>();
  const faults: string[] = [];
  const reached = countReached();
  for (const bytes of target.seeds) shapes.add(shapeOf(await target.ask(bytes)));
  reached.newlyRun();
  const bySeeds = reached.blocks;
  /** What ran something new: spoiled as often as all those whose answer was new, of which there are more. */
  const finders = [...target.seeds];
  const most = 2 * Math.max(100_000, ...target.seeds.map(({ length }) => length));
  const isOne = (bytes: Buffer, among: readonly Buffer[]): boolean => bytes.length < most && among.length < MAX_KEPT;
  const oneOf = (among: readonly Buffer[]): Buffer => among[Math.floor(chance() * among.length)] ?? Buffer.alloc(0);
  const pick = (): Buffer => oneOf(chance() < 0.5 ? finders : kept);
  const inputs = Math.round(INPUTS * target.share);
  const told = (left: number): string =>
    `${name}: ${inputs - left} inputs, ${shapes.size} answers, ${reached.blocks} blocks run (${bySeeds} by the unspoiled) by ${finders.length} kept, ${faults.length} faults`;
  for (let n = inputs; n > 0 && faults.length < 5; n -= BATCH) {
    if (INPUTS > 100_000 && n % 5000 < BATCH) console.log(told(n));
    const batch = Array.from({ length: Math.min(BATCH, n) }, () => spoiled(pick(), pick(), target, chance));
    for (const bytes of batch) {
      const { reply, fault } = await tryOn(target, bytes);
      if (reply !== null) {
        const shape = shapeOf(reply);
        if (!shapes.has(shape) && isOne(bytes, kept)) kept.push(bytes);
        shapes.add(shape);
      }
      if (fault === null) continue;
      const path = join(tmpdir(), `coldstock-fuzz-${name}-${seed}-${faults.length}`);
      writeFileSync(path, bytes);
      faults.push(`${fault} (the input is in ${path})`);
    }
    // Which of them reached something new is asked by trying them again, one by one, against what ran before.
    const news = reached.newlyRun();
    if (news.size === 0) continue;
    for (const bytes of batch) {
      if (news.size === 0) break;
      await tryOn(target, bytes);
      if (reached.tookFrom(news) && isOne(bytes, finders)) finders.push(bytes);
    }
  }
  console.log(told(0));
  Object.assign(task.meta, { figures: { "spoiled inputs": inputs } });
  reached.end();
  expect(faults, `COLDSTOCK_FUZZ_SEED=${seed}`).toEqual([]);
  // One answer to everything would mean that nothing was ever looked into, and no new block that nothing was found.
  expect(shapes.size).toBeGreaterThan(2);
  expect(finders.length).toBeGreaterThan(target.seeds.length);
  expect(existsSync(join(folder, "imported.coldstock"))).toBe(false);
});

it("and the open ledger is sound after all this", () => {
  const path = rig.path("tarn");
  const store = openLedger(path);
  expect(store.verify()).toMatchObject({ isSound: true, faults: [] });
  store.close();
});
