/**
 * The program as it is handed out: packaged by the project's own configuration, with its fuses set, started and used. The
 * test driver cannot come in by the main process then (that is one of the fuses), so it comes by the page's own port.
 * Where the runtime's Node is too old for the database module, the service runs on Node beside it, from the files that
 * the archive holds; what needs no database is then also tried inside the archive, in the runtime's Node.
 */
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { FuseState, FuseV1Options, getCurrentFuseWire } from "@electron/fuses";
import { read as readWorkbook, utils } from "@e965/xlsx";
import { type Browser, type Page, chromium } from "@playwright/test";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import type { Bridge } from "../../../app/contract/bridge.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { findElectron } from "../equipment/electron.ts";
import { root } from "../equipment/project.ts";
import { type MadePackage, unpackBeside, makePackage } from "../equipment/package.ts";
import { startedAnew } from "../harness/started-anew.ts";
import { expect, test } from "../harness/test.ts";
import { standing } from "../harness/timeline.ts";

/** Item 19 of Electron's security checklist, and what Electron's documentation of its fuses recommends. */
const fuses = {
  RunAsNode: FuseState.DISABLE,
  EnableCookieEncryption: FuseState.ENABLE,
  EnableNodeOptionsEnvironmentVariable: FuseState.DISABLE,
  EnableNodeCliInspectArguments: FuseState.DISABLE,
  EnableEmbeddedAsarIntegrityValidation: FuseState.ENABLE,
  OnlyLoadAppFromAsar: FuseState.ENABLE,
  GrantFileProtocolExtraPrivileges: FuseState.DISABLE,
} as const;

let output: string;
let made: MadePackage;

test.beforeAll(async () => {
  test.setTimeout(180_000);
  output = mkdtempSync(join(tmpdir(), "coldstock-package-"));
  made = await makePackage(output);
  unpackBeside(made);
});

test.afterAll(() => rmSync(output, { recursive: true, force: true }));

interface Running {
  readonly process: ChildProcess;
  readonly page: Page;
  readonly stop: () => Promise<void>;
}

const PORT = /DevTools listening on (ws:\S+)/;

const portOf = (child: ChildProcess): Promise<string> =>
  new Promise((resolve, reject) => {
    let said = "";
    child.stderr?.on("data", (chunk: Buffer) => {
      said += chunk.toString();
      const port = PORT.exec(said)?.[1];
      if (port !== undefined) resolve(port);
    });
    child.on("exit", (status) => reject(new Error(`the package ended with ${status}: ${said}`)));
  });

const environmentFor = async (home: string, display: string): Promise<NodeJS.ProcessEnv> => {
  const { env } = await findElectron();
  return { ...process.env, ...env, COLDSTOCK_HOME: home, ...(display === "" ? {} : { DISPLAY: display }) };
};

const SWITCHES = ["--no-sandbox", "--disable-gpu"];

const end = async (child: ChildProcess): Promise<void> => {
  const gone = once(child, "exit");
  child.kill("SIGTERM");
  await gone;
};

const launch = async (
  home: string,
  display: string,
  timeout: number,
): Promise<{ child: ChildProcess; browser: Browser }> => {
  const child = spawn(made.executable, [...SWITCHES, "--remote-debugging-port=0"], {
    env: await environmentFor(home, display),
    stdio: ["ignore", "ignore", "pipe"],
  });
  const port = await portOf(child);
  try {
    return { child, browser: await chromium.connectOverCDP(port, { timeout }) };
  } catch (error) {
    await end(child);
    throw error;
  }
};

const start = async (home: string, display: string): Promise<Running> => {
  const { child, browser } = await startedAnew((timeout) => launch(home, display, timeout));
  const context = browser.contexts()[0];
  if (context === undefined) throw new Error("the package shows no page");
  const page = context.pages()[0] ?? (await context.waitForEvent("page"));
  return {
    process: child,
    page,
    stop: async () => {
      await end(child);
      await browser.close().catch(() => undefined);
    },
  };
};

interface PlannerWindow {
  readonly coldstock: Bridge;
}

const planOf = async (page: Page): Promise<PlanSnapshot> =>
  await page.evaluate(async () => {
    const { coldstock } = window as unknown as PlannerWindow;
    const info = await coldstock.call("ledger.info", {});
    if (!info.ok) throw new Error(info.failure.message);
    const view = await coldstock.call("plan.view", { planCaseId: info.value.planCases[0]?.id ?? "" });
    if (!view.ok) throw new Error(view.failure.message);
    return view.value.plan;
  });

/** The supply check of a plan by the sources, in a Node of its own: what the package must say as well. */
const checked = (plan: PlanSnapshot): { readonly sorties: unknown; readonly hinges: unknown } => {
  const script = `
    import { readFileSync } from "node:fs";
    import { check } from ${JSON.stringify(join(root, "app/supply/check.ts"))};
    const { sorties, hinges } = check(JSON.parse(readFileSync(0, "utf8")));
    console.log(JSON.stringify({ sorties, hinges }));`;
  const run = spawnSync(process.execPath, ["--input-type=module", "-e", script], {
    input: JSON.stringify(plan),
    encoding: "utf8",
  });
  return JSON.parse(run.stdout) as ReturnType<typeof checked>;
};

const report = async (page: Page, planCaseId: string, form: "pdf" | "xlsx"): Promise<Uint8Array> => {
  const base64 = await page.evaluate(
    async (asked) => {
      const { coldstock } = window as unknown as PlannerWindow;
      const choices = {
        planCaseId: asked.planCaseId,
        compareId: null,
        fromAt: null,
        untilAt: null,
        massUnit: "t" as const,
        paper: "A4" as const,
        sectionIds: null,
      };
      const reply = await coldstock.call("report.write", {
        of: { kind: "draft", choices },
        form: asked.form,
        tableId: null,
      });
      if (!reply.ok) throw new Error(reply.failure.message);
      return reply.value.base64;
    },
    { planCaseId, form },
  );
  return new Uint8Array(Buffer.from(base64, "base64"));
};

/** What needs no database, inside the archive: its thread on a plan, its writers, its files. */
const INSIDE = `
  const { Worker } = require("node:worker_threads");
  const { readFileSync } = require("node:fs");
  const [archive, plan] = [process.argv[1], JSON.parse(readFileSync(process.argv[2], "utf8"))];
  const thread = new Worker(archive + "/out/main/worker.js", { workerData: new SharedArrayBuffer(8) });
  void (async () => {
    const base = { key: null, value: plan };
    thread.postMessage({ taskId: 1, name: "supply.check", base, forget: [], asked: null, part: null });
    const { value } = await new Promise((resolve, reject) => {
      thread.on("message", (message) => message.kind === "progress" || resolve(message));
      thread.on("error", reject);
    });
    await thread.terminate();
    const writers = await import(archive + "/out/main/write-report.js");
    const font = readFileSync(archive + "/out/main/fonts/atkinson-hyperlegible-next-latin-400-normal.woff");
    const sql = readFileSync(archive + "/out/main/migrations/0010-initial.sql", "utf8");
    console.log(JSON.stringify({
      sorties: value.sorties,
      writers: Object.values(writers).map((made) => typeof made),
      font: font.subarray(0, 4).toString(),
      sql: sql.includes("CREATE TABLE"),
    }));
  })();
`;

test("item 19: its fuses are set, and it does not serve as a plain Node", async () => {
  const wire = await getCurrentFuseWire(made.executable);
  for (const [name, state] of Object.entries(fuses))
    expect(wire[FuseV1Options[name as keyof typeof fuses]], name).toBe(state);
  const plain = spawnSync(made.executable, ["-e", "console.log('plain ' + 'node')"], {
    env: { ...process.env, ELECTRON_RUN_AS_NODE: "1", DISPLAY: "" },
    encoding: "utf8",
    timeout: 20_000,
  });
  expect(plain.stdout).not.toContain("plain node");
  // The same question to the same runtime without fuses: the answer can be had.
  expect(made.asNode("console.log('plain ' + 'node')")).toContain("plain node");
});

test("its window opens on the demonstration, checks supply in a thread, writes pages and workbooks", async ({
  home,
  ourScreen,
}) => {
  const { page, stop, process: child } = await start(home, (await ourScreen()).display);
  try {
    await expect(standing(page)).toBeVisible();
    expect(page.url()).toBe("app://coldstock/");
    await expect(page.getByRole("grid", { name: "Timeline" }).getByRole("gridcell").first()).toBeVisible();
    expect(await page.evaluate(() => document.fonts.ready.then((fonts) => fonts.size))).toBeGreaterThan(0);

    // The full check comes from a worker thread; the same by this test's own process.
    const plan = await planOf(page);
    const answer = await page.evaluate(async (planCaseId) => {
      const { coldstock } = window as unknown as PlannerWindow;
      const reply = await coldstock.call("supply.check", { planCaseId });
      return reply.ok ? JSON.stringify({ sorties: reply.value.sorties, hinges: reply.value.hinges }) : "null";
    }, plan.planCase.id);
    expect(JSON.parse(answer)).toEqual(checked(plan));

    const planFile = join(home, "plan.json");
    writeFileSync(planFile, JSON.stringify(plan));
    expect(JSON.parse(made.asNode(INSIDE, made.archive, planFile))).toEqual({
      sorties: checked(plan).sorties,
      writers: expect.arrayContaining(["function"]) as unknown,
      font: "wOFF",
      sql: true,
    });

    const pdf = await getDocument({ data: await report(page, plan.planCase.id, "pdf"), verbosity: 0 }).promise;
    expect(pdf.numPages).toBeGreaterThan(2);
    const { items } = await (await pdf.getPage(1)).getTextContent();
    expect(items.map((item) => ("str" in item ? item.str : "")).join(" ")).toContain("South Rim");

    const workbook = readWorkbook(await report(page, plan.planCase.id, "xlsx"));
    expect(workbook.SheetNames.length).toBeGreaterThan(2);
    expect(workbook.SheetNames.some((name) => utils.sheet_to_json(workbook.Sheets[name]!).length > 3)).toBe(true);

    // A double click on a ledger starts the program again with its path: the first window opens it.
    const other = join(home, "other.coldstock");
    const env = await environmentFor(home, (await ourScreen()).display);
    const demo = spawnSync(made.executable, [...SWITCHES, "demo", "beck", other], { env });
    expect(demo.status).toBe(0);
    const second = spawn(made.executable, [...SWITCHES, other], { env, stdio: "ignore" });
    expect((await once(second, "exit"))[0]).toBe(0);
    await expect(page.getByRole("contentinfo")).toContainText("other.coldstock");
    expect(child.exitCode).toBeNull();
  } finally {
    await stop();
  }
});

test("it has the command line, which needs no screen", async ({ home }) => {
  const env = { ...(await environmentFor(home, "")), DISPLAY: "", WAYLAND_DISPLAY: "" };
  const ledger = join(home, "tarn.coldstock");
  const run = (...words: readonly string[]) =>
    spawnSync(made.executable, [...SWITCHES, ...words], { env, encoding: "utf8", timeout: 60_000 });
  expect(run("demo", "tarn", ledger).status).toBe(0);
  const answer = run("check", "--json", ledger);
  // The demonstration has a sortie that is short: 1, it does not hold.
  expect(answer.status).toBe(1);
  expect(JSON.stringify(JSON.parse(answer.stdout))).toContain("short");
  const misused = run("check");
  expect(misused.status).toBe(2);
  expect(misused.stderr).toContain("missing");
});
