/**
 * What the Losses view costs the page's main thread when the months shown change or a fit is adopted: half a year of books
 * with a reading every twelve hours, at 1600×1000 in Chromium. The page measures its own work of showing each answer (tables,
 * charts, interval); beside it all processor time of the main thread from the key to the last answer shown.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "@playwright/test";
import { demoTarn } from "../../app/demo/tarn.ts";
import type { LedgerDocument } from "../../app/ledger/ledger-view.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import { loadDocument } from "../../db/ledger.ts";
import { redrawMeasure } from "../../renderer/state/measures.ts";
import { launchChromium, startInBrowser } from "../e2e/harness/browser-start.ts";
import type { Planner } from "../e2e/harness/planner.ts";
import { type Bench, type BenchFigure, BenchUnavailable, median } from "./bench.ts";

const LIMIT_MS = 16;
const CHANGES = 24;
const STATEMENT = redrawMeasure("losses.statement");
const FIT = redrawMeasure("losses.fit");

/** The demonstration with a reading of the hydrogen every twelve hours, not taken into the books. */
const document = (): LedgerDocument => {
  const demo = demoTarn();
  const monthly = demo.readings.filter(({ tankId }) => tankId === "tarn-hydrogen");
  const extra = Array.from({ length: 360 }, (_, i) => {
    const at = Date.UTC(2030, 11, 2) + (i * DAY_MS) / 2;
    // On a straight line between the monthly ones: what is drawn matters here, not what is fitted.
    const next = monthly.find((reading) => reading.at >= at) ?? monthly[0];
    return {
      id: `extra-${i}`,
      tankId: "tarn-hydrogen",
      at: at + 1,
      massKg: (next?.massKg ?? 5000) + 40 * Math.sin(i),
      sigmaKg: 51,
      entryId: null,
      isWithdrawn: false,
      note: "",
    };
  });
  return { ...demo, readings: [...demo.readings, ...extra] };
};

const mainThreadMs = async (page: Page): Promise<() => Promise<number>> => {
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable", { timeDomain: "threadTicks" });
  const read = async (): Promise<number> => {
    const { metrics } = await session.send("Performance.getMetrics");
    return (metrics.find((metric) => metric.name === "TaskDuration")?.value ?? 0) * 1000;
  };
  const from = await read();
  return async () => (await read()) - from;
};

const forget = (page: Page): Promise<void> =>
  page.evaluate((names) => names.forEach((name) => performance.clearMeasures(name)), [STATEMENT, FIT]);

/** Waits for both answers to be shown, and gives the work of each, ms. */
const shown = async (page: Page): Promise<readonly number[]> => {
  const names = [STATEMENT, FIT];
  await page.waitForFunction((all) => all.every((name) => performance.getEntriesByName(name).length > 0), names);
  return await page.evaluate((all) => all.map((name) => performance.getEntriesByName(name)[0]?.duration ?? 0), names);
};

interface Redraw {
  readonly parts: readonly number[];
  readonly wholeMs: number;
}

const redraw = async (page: Page, act: () => Promise<void>): Promise<Redraw> => {
  await forget(page);
  const stop = await mainThreadMs(page);
  await act();
  const parts = await shown(page);
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
  return { parts, wholeMs: await stop() };
};

const changeMonths = async (page: Page, place: number): Promise<Redraw> => {
  const until = page.getByRole("textbox", { name: "Until", exact: true });
  await until.fill(place % 2 === 0 ? "2031-04-20" : "2031-05-28");
  return await redraw(page, () => until.press("Enter"));
};

const adopt = async (page: Page, choose: (id: "edit.undo") => Promise<void>): Promise<Redraw> => {
  const made = await redraw(page, () =>
    page.getByRole("button", { name: "Adopt the fitted rate", exact: true }).click(),
  );
  await redraw(page, () => choose("edit.undo"));
  return made;
};

const atShare = (numbers: readonly number[], share: number): number =>
  numbers.toSorted((a, b) => a - b)[Math.min(numbers.length - 1, Math.floor(share * numbers.length))] ?? Number.NaN;

const figuresOf = (what: string, redraws: readonly Redraw[], note: string): readonly BenchFigure[] => {
  const works = redraws.flatMap(({ parts }) => parts);
  const name = `losses redraw after ${what}, the page's own work`;
  const partOf = (place: number): string => median(redraws.map(({ parts }) => parts[place] ?? 0)).toFixed(1);
  return [
    {
      name,
      value: median(works),
      unit: "ms",
      limit: LIMIT_MS,
      note: `${note}: books ${partOf(0)} ms, fit ${partOf(1)} ms`,
    },
    { name: `losses redraw after ${what}, 95th percentile`, value: atShare(works, 0.95), unit: "ms", limit: LIMIT_MS },
    {
      name: `losses view after ${what}, all main-thread processor time`,
      value: median(redraws.map(({ wholeMs }) => wholeMs)),
      unit: "ms",
      note: "both answers, the form, layout and software painting",
    },
  ];
};

const measured = async ({ page, resize, choose }: Planner): Promise<readonly BenchFigure[]> => {
  await resize(1600, 1000);
  await choose("view.losses");
  await shown(page);
  for (let place = 0; place < 4; place++) await changeMonths(page, place);
  const months: Redraw[] = [];
  for (let place = 0; place < CHANGES; place++) months.push(await changeMonths(page, place));
  const adopted: Redraw[] = [];
  for (let count = 0; count < 8; count++) adopted.push(await adopt(page, choose));
  return [
    ...figuresOf("a change of months", months, `${months.length} changes, each with both answers`),
    ...figuresOf("adopting a fit", adopted, `${adopted.length} adoptions`),
  ];
};

export const bench: Bench = {
  name: "losses redraw",
  run: async (): Promise<readonly BenchFigure[]> => {
    const home = mkdtempSync(join(tmpdir(), "coldstock-redraw-"));
    const ledger = join(home, "half-year.coldstock");
    loadDocument(ledger, document()).close();
    const browser = await launchChromium().catch((error: unknown) => {
      throw new BenchUnavailable(`Chromium does not start here: ${String(error)}`);
    });
    try {
      const planner = await startInBrowser(browser, { home, ledger });
      try {
        return await measured(planner);
      } finally {
        // Also where it failed: the host would keep the whole run from ending.
        await planner.close();
      }
    } finally {
      await browser.close();
      rmSync(home, { recursive: true, force: true });
    }
  },
};
