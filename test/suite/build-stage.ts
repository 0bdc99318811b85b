/** The build, and whether every program that it made can be read at all: parts that are sound may clash in one file. */
import { spawnSync } from "node:child_process";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { root } from "../e2e/equipment/project.ts";
import { type StageResult, runShown } from "./stage.ts";

export const buildStage = async (): Promise<StageResult> => {
  const built = await runShown("electron-vite", ["build", "--config", "electron.config.ts", "--logLevel", "warn"]);
  if (built !== 0) return { stage: "build", passed: 0, failed: 1, notRun: [] };
  const folder = join(root, "out/main");
  const programs = readdirSync(folder).filter((name) => name.endsWith(".js"));
  let failed = 0;
  for (const name of programs) {
    const { status, stderr } = spawnSync(process.execPath, ["--check", join(folder, name)], { encoding: "utf8" });
    if (status === 0) continue;
    failed += 1;
    console.log(`out/main/${name} cannot be read:\n${stderr}`);
  }
  return { stage: "build", passed: programs.length - failed, failed, notRun: [] };
};
