/** Desktop cold start: from starting the process to the timeline painted on the demonstration ledger. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { findElectron } from "../e2e/equipment/electron.ts";
import { openScreen } from "../e2e/equipment/screen.ts";
import { launchDesktop } from "../e2e/harness/desktop-start.ts";
import { timelinePainted } from "../e2e/harness/timeline.ts";
import { type Bench, type BenchFigure, BenchUnavailable, median } from "./bench.ts";

const RUNS = 7;
const LIMIT_MS = 1500;

const equipped = async <T>(find: () => Promise<T>): Promise<T> =>
  await find().catch((error: unknown) => {
    throw new BenchUnavailable(error instanceof Error ? error.message : String(error));
  });

/** ms from just before the process is started to the frame in which the timeline was painted, by the same clock. */
const startOnce = async (home: string, display: string): Promise<number> => {
  const from = Date.now();
  const app = await launchDesktop({ home }, display);
  try {
    return (await timelinePainted(await app.firstWindow())) - from;
  } finally {
    await app.close();
  }
};

export const bench: Bench = {
  name: "desktop start",
  run: async (): Promise<readonly BenchFigure[]> => {
    const { says } = await equipped(findElectron);
    const screen = await equipped(openScreen);
    const home = mkdtempSync(join(tmpdir(), "coldstock-start-"));
    try {
      const first = await startOnce(home, screen.display);
      const starts: number[] = [];
      for (let run = 0; run < RUNS; run++) starts.push(await startOnce(home, screen.display));
      const name = "desktop start to a painted timeline";
      return [
        {
          name,
          value: median(starts),
          unit: "ms",
          limit: LIMIT_MS,
          note: `${RUNS} starts under the test driver; ${says}`,
        },
        { name: "the same, the very first start (makes the demonstration)", value: first, unit: "ms", ratioTo: name },
      ];
    } finally {
      screen.close();
      rmSync(home, { recursive: true, force: true });
    }
  },
};
