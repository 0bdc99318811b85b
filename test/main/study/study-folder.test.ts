/** A study in its folder: the same bytes whatever the cut, what is spoiled found and computed anew, and nothing spoiled by it. */
import {
  appendFileSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { StudyAsked } from "../../../app/study/question.ts";
import { parseStudy } from "../../../app/study/resolve.ts";
import { prepareStudy } from "../../../app/study/study.ts";
import { mergeStudy } from "../../../main/study/merge.ts";
import { runShards } from "../../../main/study/run-shards.ts";
import { arrayRange, beginShard, shardPath, standingOf, thisMaker } from "../../../main/study/shard-file.ts";
import { openStudy, planStudy } from "../../../main/study/study-folder.ts";
import { shardOfQueue } from "../../../main/study/which-shard.ts";
import { inlineRunner } from "../../../main/service/work/runner.ts";
import { carries, flight, lossPeriod, smallPlan, sortie, tank } from "../../app/forecast/small-plan.ts";

const plan = smallPlan({
  tanks: [tank("a", { maximumFillKg: 40_000, reserveKg: 1000 })],
  opening: { a: 20_000 },
  tanker: [carries({ capacityKg: 12_000 })],
  flights: [flight("f1", 5, 10, 10_000), flight("f2", 25, 30, 10_000)],
  sorties: [sortie("s1", 20, 15_000), sortie("s2", 40, 15_000)],
  lossPeriods: [lossPeriod("base", "a", 0.001, 50)],
  horizonDay: 60,
});
const asked: StudyAsked = parseStudy({
  name: "Losses",
  inputs: [
    { quantity: "loss factor", values: { kind: "range", from: 0, to: 4, count: 5 } },
    { quantity: "reserve", tank: "a", values: { kind: "list", list: [0, 500, 2000] } },
  ],
  design: { kind: "grid" },
  ask: [{ kind: "supply" }, { kind: "risk", runs: 64 }],
});
const base = { plan, readings: [], asked };
const study = prepareStudy(base);

let root = "";
let number = 0;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), "coldstock-study-"));
});
afterAll(() => rmSync(root, { recursive: true }));
const fresh = (): string => join(root, String((number += 1)));

const running = (signal = new AbortController().signal) => ({
  runner: inlineRunner(),
  signal,
  progress: () => undefined,
});

const planned = (shards: number) => {
  const folder = fresh();
  planStudy(folder, base, study, shards);
  return folder;
};
const resultOf = (folder: string): string => readFileSync(join(folder, "result.json"), "utf8");

/** The rows without any folder. */
const direct = (): string => {
  const rows = Array.from({ length: study.points }, (_, point) =>
    JSON.stringify([point, ...study.rowOf(study.valuesOf(point))]),
  );
  return `${rows.join(",\n")}\n]}\n`;
};

const finish = async (folder: string): Promise<string> => {
  await runShards(folder, null, running());
  expect(await mergeStudy(openStudy(folder))).toMatchObject({ isWhole: true, points: 15 });
  return resultOf(folder);
};

describe("the same bytes", () => {
  test("whatever the cut: 1, 2, 5, 8 and 15 shards give the rows of the study itself", async () => {
    const first = await finish(planned(1));
    expect(first.slice(first.indexOf('"rows":[\n') + 9)).toBe(direct());
    for (const shards of [2, 5, 8, 15]) expect(await finish(planned(shards))).toBe(first);
  });

  test("in any order of shards, one by one, and some of them twice", async () => {
    const whole = await finish(planned(1));
    const folder = planned(7);
    for (const shard of [6, 2, 2, 0, 5, 4, 6, 1, 3]) await runShards(folder, shard, running());
    await mergeStudy(openStudy(folder));
    expect(resultOf(folder)).toBe(whole);
  });

  test("interrupted and gone on with: whole shards stay, nothing else is left behind", async () => {
    const whole = await finish(planned(1));
    const folder = planned(9);
    const stop = new AbortController();
    let told = 0;
    const ran = await runShards(folder, null, {
      ...running(stop.signal),
      progress: () => {
        told += 1;
        if (told === 4) stop.abort();
      },
    });
    expect(ran.isStopped).toBe(true);
    expect(ran.computed).toBeGreaterThan(0);
    expect(ran.computed).toBeLessThan(9);
    expect(readdirSync(join(folder, "shards"))).toHaveLength(ran.computed);
    expect(await mergeStudy(openStudy(folder))).toMatchObject({ isWhole: false, open: ran.open });
    expect(existsSync(join(folder, "result.json"))).toBe(false);
    const again = await runShards(folder, null, running());
    expect(again).toMatchObject({ found: ran.computed, computed: 9 - ran.computed, open: "" });
    await mergeStudy(openStudy(folder));
    expect(resultOf(folder)).toBe(whole);
  });
});

describe("what is spoiled", () => {
  const spoilt: readonly (readonly [string, (path: string) => void])[] = [
    ["lost", (path) => rmSync(path)],
    ["empty", (path) => writeFileSync(path, "")],
    ["cut off", (path) => writeFileSync(path, readFileSync(path, "utf8").slice(0, -30))],
    ["cut at a line", (path) => writeFileSync(path, readFileSync(path, "utf8").split("\n").slice(0, 3).join("\n"))],
    [
      "with one figure changed",
      (path) => writeFileSync(path, readFileSync(path, "utf8").replace("supplied", "supplieb")),
    ],
    ["with a line more", (path) => appendFileSync(path, "[1]\n")],
    ["of something else", (path) => writeFileSync(path, "\u0000\u0001not a shard")],
  ];
  test.each(spoilt)("a shard %s is found by its digest, and computed anew", async (_, spoil) => {
    const whole = await finish(planned(1));
    const folder = planned(6);
    await runShards(folder, null, running());
    spoil(shardPath(folder, 4));
    expect(standingOf(openStudy(folder)).open).toEqual([4]);
    expect(await mergeStudy(openStudy(folder))).toMatchObject({ isWhole: false, open: "4" });
    expect(await runShards(folder, null, running())).toMatchObject({ computed: 1, found: 5 });
    await mergeStudy(openStudy(folder));
    expect(resultOf(folder)).toBe(whole);
  });

  test("a shard of another study, or of another cut, does not count", async () => {
    const [one, other] = [planned(4), planned(5)];
    await runShards(one, null, running());
    copyFileSync(shardPath(one, 2), join(other, "shards", "000002.jsonl"));
    expect(standingOf(openStudy(other))).toMatchObject({ open: [0, 1, 2, 3, 4], spoiled: [{ shard: 2 }] });
  });

  test("a result that differs is not written over; shards of two kinds of processor are not mixed", async () => {
    const folder = planned(2);
    await finish(folder);
    writeFileSync(join(folder, "result.json"), "mine");
    await expect(mergeStudy(openStudy(folder))).rejects.toThrow(/left as it is/);
    expect(resultOf(folder)).toBe("mine");
    rmSync(join(folder, "result.json"));
    const lines = readFileSync(shardPath(folder, 1), "utf8").split("\n").slice(1, -2);
    const writer = beginShard(openStudy(folder), 1, { ...thisMaker(), processor: "other" });
    writer.write(`${lines.join("\n")}\n`);
    writer.keep();
    await expect(mergeStudy(openStudy(folder))).rejects.toThrow(/need not agree to the last bit/);
    expect(existsSync(join(folder, "result.json"))).toBe(false);
    expect(readdirSync(folder).toSorted()).toEqual(["inputs.json", "shards", "study.json"]);
  });
});

describe("what is refused, with nothing spoiled", () => {
  test("inputs that were changed", async () => {
    const folder = planned(3);
    const path = join(folder, "inputs.json");
    writeFileSync(path, readFileSync(path, "utf8").replace("15000", "15001"));
    await expect(runShards(folder, null, running())).rejects.toThrow(/not what the study was planned with/);
    expect(readdirSync(join(folder, "shards"))).toEqual([]);
  });

  test("a folder of another study, one with other files, and one that is none", () => {
    const folder = planned(3);
    const other = prepareStudy({ ...base, asked: { ...asked, name: "Another" } });
    const before = readFileSync(join(folder, "study.json"));
    expect(() => planStudy(folder, { ...base, asked: other.asked }, other, 3)).toThrow(/holds another study/);
    expect(readFileSync(join(folder, "study.json")).equals(before)).toBe(true);
    // The very same one is there already, whatever cut is asked.
    expect(planStudy(folder, base, study, 8)).toMatchObject({ wasThere: true, plan: { shards: 3 } });
    const full = fresh();
    mkdirSync(full);
    writeFileSync(join(full, "thesis.txt"), "mine");
    expect(() => planStudy(full, base, study, 3)).toThrow(/has other files in it/);
    expect(() => openStudy(full)).toThrow(/not the folder of a study/);
    writeFileSync(join(full, "study.json"), JSON.stringify(asked));
    expect(() => openStudy(full)).toThrow(/not a planned study/);
  });

  test("a study of another version of the program", () => {
    const folder = planned(3);
    const path = join(folder, "study.json");
    writeFileSync(path, readFileSync(path, "utf8").replace(/"program": "[^"]*"/, '"program": "0.0.1"'));
    expect(() => openStudy(folder)).toThrow(/version 0\.0\.1/);
  });
});

test("a queue says which shard is meant; two at once do not", () => {
  expect(shardOfQueue({}, 8)).toBeNull();
  expect(shardOfQueue({ SLURM_ARRAY_TASK_ID: "7" }, 8)).toBe(7);
  // The first task of an array of this queue is 1, and outside one it says "undefined".
  expect(shardOfQueue({ SGE_TASK_ID: "1" }, 8)).toBe(0);
  expect(shardOfQueue({ SGE_TASK_ID: "undefined" }, 8)).toBeNull();
  expect(() => shardOfQueue({ SLURM_ARRAY_TASK_ID: "8" }, 8)).toThrow(/none of them/);
  expect(() => shardOfQueue({ SLURM_ARRAY_TASK_ID: "1", PBS_ARRAY_INDEX: "1" }, 8)).toThrow(/Both/);
});

test("open shards are named as queues take them", () => {
  expect(arrayRange([])).toBe("");
  expect(arrayRange([2, 5, 6, 7, 9])).toBe("2,5-7,9");
});
