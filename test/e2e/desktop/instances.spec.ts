/** One instance: a second start hands its file to the first and ends. */
import { execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import { join } from "node:path";
import { findElectron } from "../equipment/electron.ts";
import { root } from "../equipment/project.ts";
import { expect, test } from "../harness/test.ts";
import { standing } from "../harness/timeline.ts";

test("a second start ends, and its file opens in the first window", async ({ planner, home, ourScreen }) => {
  const { page } = planner;
  await expect(standing(page)).toBeVisible();
  const other = join(home, "other.coldstock");
  execFileSync(process.execPath, [join(root, "out/main/cli.js"), "demo", "beck", other]);

  const equipment = await findElectron();
  const { display } = await ourScreen();
  const second = spawn(equipment.executablePath, [...equipment.args, other], {
    env: { ...process.env, ...equipment.env, COLDSTOCK_HOME: home, DISPLAY: display },
    stdio: "ignore",
  });
  const [status] = (await once(second, "exit")) as [number | null];
  expect(status).toBe(0);
  await expect(page.getByRole("contentinfo")).toContainText("other.coldstock");
});
