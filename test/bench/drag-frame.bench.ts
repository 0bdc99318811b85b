/**
 * What one frame of a drag costs the page's main thread: the reference campaign at 1600×1000 in Chromium, one flight
 * dragged to and fro. The page measures its own work of each frame (forecast, check, redraw); beside it the browser's own
 * count of the main thread's processor time over the whole drag, style, layout, raster and input included, less what the
 * test driver's own two messages a frame cost (measured by the same moves beside the chart).
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { launchChromium, startInBrowser } from "../e2e/harness/browser-start.ts";
import { type Bench, type BenchFigure, BenchUnavailable, median } from "./bench.ts";
import { SIZE, STEPS, atShare, drag, driverMs } from "./drag.ts";
import { writeReferenceLedger } from "./reference-ledger.ts";

const LIMIT_MS = 8;

export const bench: Bench = {
  name: "drag frame",
  run: async (): Promise<readonly BenchFigure[]> => {
    const home = mkdtempSync(join(tmpdir(), "coldstock-drag-"));
    const ledger = join(home, "reference.coldstock");
    writeReferenceLedger(ledger);
    const browser = await launchChromium().catch((error: unknown) => {
      throw new BenchUnavailable(`Chromium does not start here: ${String(error)}`);
    });
    try {
      const planner = await startInBrowser(browser, { home, ledger });
      await planner.resize(SIZE.width, SIZE.height);
      const driver = median([await driverMs(planner.page), await driverMs(planner.page), await driverMs(planner.page)]);
      const runs = [
        await drag(planner.page, "Packhorse 60"),
        await drag(planner.page, "Packhorse 60"),
        await drag(planner.page, "Packhorse 60"),
      ];
      await planner.close();
      const frames = runs.flatMap((run) => run.frames);
      if (frames.length < STEPS) throw new Error(`only ${frames.length} frames were measured`);
      const note = `${frames.length} frames, software rendering`;
      const name = "drag frame, the page's own work";
      return [
        { name, value: median(frames), unit: "ms", limit: LIMIT_MS, note },
        {
          name: "drag frame, 95th percentile",
          value: atShare(frames, 0.95),
          unit: "ms",
          limit: LIMIT_MS,
          ratioTo: name,
        },
        {
          name: "drag frame, all main-thread processor time",
          value: median(runs.map((run) => run.wholeMs / run.frames.length)) - driver,
          unit: "ms",
          limit: LIMIT_MS,
          ratioTo: name,
          note: `the driver's own ${driver.toFixed(2)} ms a frame taken off`,
        },
      ];
    } finally {
      await browser.close();
      rmSync(home, { recursive: true, force: true });
    }
  },
};
