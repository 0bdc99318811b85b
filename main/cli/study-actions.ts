/** What `study` does, action by action. */
import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { paperTheme } from "../../app/picture/paper-theme.ts";
import { captioned } from "../../app/picture/captioned.ts";
import { screenLook } from "../../app/picture/look.ts";
import { estimatedWidth } from "../../app/picture/shape.ts";
import { studyMapHeight } from "../../app/picture/study-map-axes.ts";
import { studyMapPicture } from "../../app/picture/study-map-picture.ts";
import { toSvg } from "../../app/picture/svg.ts";
import { readJson, UnreadableJson } from "../../app/format/read-json.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import { findEdge } from "../../app/study/edge.ts";
import { edgeText } from "../../app/study/edge-words.ts";
import { rankInputs } from "../../app/study/ranking.ts";
import { parseStudy } from "../../app/study/resolve.ts";
import { sampleStudy } from "../../app/study/sample.ts";
import { spanWords } from "../../app/study/study-cost.ts";
import { studyMap, suppliedSlice } from "../../app/study/study-map.ts";
import { capitalised } from "../../app/words/counted.ts";
import { readTextFile } from "../page/text-file.ts";
import { writeOut } from "../page/write-out.ts";
import { costOf, prepared } from "../study/measure.ts";
import { mergeStudy } from "../study/merge.ts";
import { readResult } from "../study/read-result.ts";
import { arrayRange, standingOf } from "../study/shard-file.ts";
import { MAX_SHARDS, openStudy, planStudy } from "../study/study-folder.ts";
import { shardNumber, shardOfQueue } from "../study/which-shard.ts";
import { chooseCase } from "./choose-case.ts";
import { type CommandHost, optionText } from "./cli-command.ts";
import { rankingText } from "./study-text.ts";
import { typedNumber } from "./typed-number.ts";

export type Options = Readonly<Record<string, unknown>>;

/** More than these are planned only when it is said that they are meant. */
const MANY_POINTS = 200_000;
const LONG_S = 900;

const openCase = async (host: CommandHost, ledger: string, wanted: string | undefined) => {
  const info = await host.ask("ledger.open", { path: resolve(ledger) });
  const planCase = chooseCase(info, wanted);
  return await host.ask("plan.view", { planCaseId: planCase.id });
};

const readStudy = (path: string) => {
  const text = readTextFile(resolve(path));
  try {
    return parseStudy(readJson(text));
  } catch (error) {
    if (!(error instanceof UnreadableJson)) throw error;
    throw new PlanningError("invalid input", `${path} is not JSON that can be read: ${error.message}.`);
  }
};

export const sampleAction = async (
  host: CommandHost,
  [ledger = "", path = ""]: readonly string[],
  options: Options,
) => {
  const { plan } = await openCase(host, ledger, optionText(options, "case"));
  const asked = sampleStudy(plan);
  const place = resolve(path);
  writeOut(place, `${JSON.stringify(asked, null, 2)}\n`, {
    mayReplace: options["replace"] === true,
    from: resolve(ledger),
  });
  return {
    holds: true,
    json: { study: place, inputs: asked.inputs.map(({ quantity }) => quantity) },
    text: `${path} varies ${asked.inputs.map(({ quantity }) => quantity).join(" and ")} of ${plan.planCase.name}. Change it as you like, then: study plan ${ledger} ${path} FOLDER`,
  };
};

const shardsOf = (options: Options, points: number): number => {
  const text = optionText(options, "shards");
  if (text === undefined) return Math.min(points, 16);
  const words = `--shards is a whole number from 1 to ${Math.min(MAX_SHARDS, points)} (no more than there are points).`;
  const shards = typedNumber(text, "", "--shards", words);
  if (Number.isInteger(shards) && shards >= 1 && shards <= Math.min(MAX_SHARDS, points)) return shards;
  throw new PlanningError("invalid input", words, "--shards");
};

export const planAction = async (
  host: CommandHost,
  [ledger = "", path = "", folder = ""]: readonly string[],
  options: Options,
) => {
  const asked = readStudy(path);
  const { plan, readings } = await openCase(host, ledger, asked.case);
  const base = { plan, readings, asked };
  const study = await prepared(base);
  const cost = costOf(study);
  const costWords = `${cost.points.toLocaleString("en")} points: about ${spanWords(cost.totalS)} on the ${cost.cores} cores of this machine (measured on ${cost.measuredPoints} of them)`;
  if ((cost.points > MANY_POINTS || cost.totalS > LONG_S) && options["yes"] !== true)
    throw new PlanningError(
      "refused",
      `This study has ${costWords}. Nothing was written. Say --yes if that is meant, or take fewer values of an input.`,
      "--yes",
    );
  const made = planStudy(resolve(folder), base, study, shardsOf(options, study.points));
  return {
    holds: true,
    json: { folder: made.folder, identity: made.identity, shards: made.plan.shards, wasThere: made.wasThere, ...cost },
    text: `${made.wasThere ? "This study is planned there already" : "Planned"}, in ${made.plan.shards} shards. ${costWords}.\nRun it: study run ${folder}`,
  };
};

export const runAction = async (host: CommandHost, [folder = ""]: readonly string[], options: Options) => {
  const place = resolve(folder);
  const { plan } = openStudy(place);
  const text = optionText(options, "shard");
  const shard = text === undefined ? shardOfQueue(process.env, plan.shards) : shardNumber(text, plan.shards, "--shard");
  const ran = await host.ask("study.run", { folder: place, shard });
  const lines = [
    ...ran.spoiled.map(({ shard: n, why }) => `Shard ${n} did not count (${why}) and was computed anew.`),
    `${ran.computed} of ${shard === null ? `${ran.shards} shards` : "1 shard"} computed now, ${ran.found} found whole.`,
    ran.open === ""
      ? `Nothing is open. Put it together: study merge ${folder}`
      : `${ran.isStopped ? "Stopped" : "Not finished"}; open: ${ran.open}. Go on with the same command.`,
  ];
  return { holds: ran.open === "", json: { folder: place, ...ran }, text: lines.join("\n") };
};

export const statusAction = (_host: CommandHost, [folder = ""]: readonly string[]) => {
  const study = openStudy(resolve(folder));
  const { open, spoiled } = standingOf(study);
  const { shards, points } = study.plan;
  const lines = [
    `${study.plan.asked.name}: ${shards - open.length} of ${shards} shards are whole (${points.toLocaleString("en")} points).`,
    ...spoiled.map(({ shard, why }) => `Shard ${shard} does not count: ${why}.`),
    ...(open.length === 0 ? [] : [`Open: ${arrayRange(open)}`]),
  ];
  return Promise.resolve({
    holds: open.length === 0,
    json: { folder: study.folder, shards, points, open: arrayRange(open), spoiled: [...spoiled] },
    text: lines.join("\n"),
  });
};

export const mergeAction = async (_host: CommandHost, [folder = ""]: readonly string[]) => {
  const merged = await mergeStudy(openStudy(resolve(folder)));
  return {
    holds: merged.isWhole,
    json: merged,
    text: merged.isWhole
      ? `${merged.points.toLocaleString("en")} points in ${merged.path}\nSHA-256: ${merged.digest ?? ""}`
      : [
          ...merged.spoiled.map(({ shard, why }) => `Shard ${shard} does not count: ${why}.`),
          `Not merged: the shards ${merged.open} are open. Compute them: study run ${folder}`,
        ].join("\n"),
  };
};

export const takeAction = async (host: CommandHost, [folder = "", ledger = ""]: readonly string[]) => {
  await host.ask("ledger.open", { path: resolve(ledger) });
  const kept = await host.ask("study.take", { folder: resolve(folder) });
  return {
    holds: true,
    json: { ledger: resolve(ledger), ...kept },
    text: `Study ${kept.number} is kept in ${ledger}: ${kept.name}, ${kept.points.toLocaleString("en")} points of ${kept.caseName}.`,
  };
};

/** Pixels. */
const MAP_WIDTH = 720;

export const mapAction = (_host: CommandHost, [folder = "", path = ""]: readonly string[], options: Options) => {
  const study = openStudy(resolve(folder));
  const map = studyMap(readResult(study));
  const place = resolve(path);
  const title = `${map.name}: how many of ${map.sorties} sorties are supplied, by ${map.across.words} and ${map.up.words}`;
  const shown = {
    across: map.across,
    up: map.up,
    value: { words: "sorties supplied", unit: "" },
    panels: [{ title: "", slice: suppliedSlice(map) }],
    today: [map.across.today, map.up.today],
    holds: "every sortie is supplied",
    massUnit: "kg",
    notes: [],
  } as const;
  const size = { width: MAP_WIDTH, height: studyMapHeight(1, MAP_WIDTH, screenLook) };
  const caption = {
    title: capitalised(map.name),
    parts: [
      `plan case ${map.planCase}`,
      `how many of ${map.sorties} sorties are supplied with the reserve kept`,
      "fuller: more",
      "a sortie that is not loaded leaves its propellant to the later ones",
    ],
  };
  const picture = captioned(studyMapPicture(shown, size, screenLook), caption, estimatedWidth);
  writeOut(place, toSvg(picture, paperTheme, title), {
    mayReplace: options["replace"] === true,
    from: null,
  });
  return Promise.resolve({ holds: true, json: { file: place, sorties: map.sorties }, text: `${title}: ${path}` });
};

export const edgeAction = async (host: CommandHost, [ledger = "", path = ""]: readonly string[], options: Options) => {
  const asked = readStudy(path);
  const { plan } = await openCase(host, ledger, asked.case);
  const [input] = asked.inputs;
  if (input === undefined) throw new PlanningError("invalid input", "The study varies nothing.", "inputs");
  const text = optionText(options, "tolerance") ?? "0.001";
  const words = "--tolerance is a number above 0, in the unit of the input.";
  const tolerance = typedNumber(text, "", "--tolerance", words);
  if (!(tolerance > 0)) throw new PlanningError("invalid input", words, "--tolerance");
  const wanted = optionText(options, "sortie");
  const ahead = plan.sorties.filter(({ status, loadAt }) => status === "planned" && loadAt <= plan.horizonAt);
  const edges = (wanted === undefined ? ahead.map(({ id }) => id) : [wanted]).map((sortie) =>
    findEdge(plan, { input, sortie, tolerance }),
  );
  return { holds: true, json: { ledger: resolve(ledger), edges }, text: edges.map(edgeText).join("\n") };
};

export const rankAction = (_host: CommandHost, [folder = ""]: readonly string[], options: Options) => {
  const study = openStudy(resolve(folder));
  const of = optionText(options, "of") ?? study.plan.columns[study.plan.asked.inputs.length + 5]?.name ?? "";
  const ranking = rankInputs(readResult(study), study.plan.asked.design.kind, of);
  return Promise.resolve({ holds: true, json: ranking, text: rankingText(ranking, study.plan.columns) });
};

/** Says what is missing before anything is read. */
export const refuseMissing = (given: readonly string[], names: readonly string[], action: string): void => {
  if (given.length === names.length) return;
  throw new PlanningError(
    "invalid input",
    `study ${action} takes ${names.length === 1 ? "one path" : `${names.length} paths`}: ${names.join(" ")}.`,
    given.length < names.length ? (names[given.length] ?? null) : null,
  );
};

/** A ledger named where a folder belongs, or the other way round, is said plainly. */
export const refuseLedgerAsFolder = (folder: string): void => {
  if (folder.endsWith(".coldstock") && existsSync(folder))
    throw new PlanningError("invalid input", `${folder} is a ledger; the folder of a study belongs here.`, "folder");
};
