/** `storage`: what each tank of a plan case loses at an instant, and the heat budget behind it. */
import { PlanningError } from "../../../app/ground/failure.ts";
import type { PlanView } from "../../../app/ledger/ledger-view.ts";
import { levelAt } from "../../../app/forecast/curve.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import { readTyped } from "../../../app/format/read-typed.ts";
import { formatMinute, parseInstant } from "../../../app/format/time.ts";
import { tankStorage } from "../../../app/storage/tank-storage.ts";
import { chooseCase } from "../choose-case.ts";
import { type CliCommand, ledgerPath, optionText } from "../cli-command.ts";
import { lookBackLines } from "../look-back-lines.ts";
import { storageText } from "../storage-text.ts";

/** Levels at an instant: recorded before the as-of instant, forecast after it. */
const levelsAt = (view: PlanView, at: number): ReadonlyMap<string, number> => {
  const histories = at < view.plan.asOfAt ? view.past : forecast(view.plan).levels;
  return new Map(histories.map(({ tankId, segments }) => [tankId, levelAt(segments, at)]));
};

const reliefOf = (text: string | undefined): number | null => {
  if (text === undefined) return null;
  const typed = readTyped(text, "kPa");
  if (!typed.ok) throw new PlanningError("invalid input", typed.fault, "--relief");
  if (!(typed.value > 0))
    throw new PlanningError("invalid input", `"${text}" is not a pressure above 0 kPa.`, "--relief");
  return typed.value;
};

export const storageCommand = {
  name: "storage",
  summary: "Print what each tank loses and why: rate in every unit, heat budget, how long it holds closed",
  examples: [{ line: "storage tarn.coldstock", does: "every tank of the depots" }],
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .option("--case <name>", "plan case by name or id (default: the first)")
      .option("--tank <name>", "one tank by name or id (default: all tanks of depots)")
      .option("--at <date>", "at this instant (default: the as-of instant)")
      .option("--relief <kPa>", "how long a tank with a heat balance holds closed, up to this pressure");
  },
  act: async (host, given, options) => {
    const ledger = await host.ask("ledger.open", { path: ledgerPath(given) });
    const planCase = chooseCase(ledger, optionText(options, "case"));
    const view = await host.ask("plan.view", { planCaseId: planCase.id });
    const wanted = optionText(options, "tank");
    const tanks = view.plan.tanks.filter((tank) =>
      wanted === undefined ? tank.ownerKind === "depot" : tank.id === wanted || tank.name === wanted,
    );
    if (tanks.length === 0) {
      const names = view.plan.tanks.map((tank) => tank.name).join(", ");
      throw new PlanningError("not found", `There is no tank "${wanted ?? ""}". There are: ${names}.`, "--tank");
    }
    const atText = optionText(options, "at");
    const at = atText === undefined ? view.plan.asOfAt : parseInstant(atText, "--at");
    const relief = reliefOf(optionText(options, "relief"));
    const levels = levelsAt(view, at);
    const storages = tanks.map((tank) => {
      const fluid = view.plan.propellants.find(({ id }) => id === tank.propellantId)?.fluid ?? null;
      return tankStorage(tank, fluid, view.plan.lossPeriods, levels.get(tank.id) ?? 0, at, relief);
    });
    const title = `${ledger.fileName}, plan case ${planCase.name}, ${formatMinute(at)}`;
    const parts = storages.map((storage, index) => storageText(tanks[index]?.name ?? storage.tankId, storage));
    return {
      holds: true,
      json: { ledger: ledger.path, planCaseId: planCase.id, at, tanks: storages },
      text: [...lookBackLines(view.plan), title, ...parts].join("\n\n"),
    };
  },
} satisfies CliCommand;
