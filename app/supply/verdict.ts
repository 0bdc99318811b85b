/**
 * Go or no-go: the heaviest of what was found, and its sentence. The only place where a verdict is made: the window, the
 * report, the command line and its exit status all take it from here.
 */
import type { PlanSnapshot } from "../entity/plan.ts";
import { capitalised, counted, listed } from "../words/counted.ts";
import { commonCause } from "./common-cause.ts";
import { findingSentence } from "./finding-sentence.ts";
import type { PlanFinding, SortieSupply, Verdict } from "./answer.ts";
import { sortieSentence } from "./sortie-sentence.ts";
import { conditionOf, isShort, weightOf, weightOfStatus } from "./weight.ts";

/** More conditions than these in one sentence are not read; the list has them all. */
const MAX_CONDITIONS = 3;

const byTime = (a: SortieSupply, b: SortieSupply): number =>
  a.plannedAt - b.plannedAt || (a.sortieId < b.sortieId ? -1 : 1);

/** "All 5 sorties can load", "Both sorties can load", "The sortie can load". */
const allCan = (count: number): string =>
  count === 1 ? "The sortie can load" : `${count === 2 ? "Both" : `All ${count}`} sorties can load`;

const noGoSentence = (plan: PlanSnapshot, sorties: readonly SortieSupply[], broken: readonly string[]): string => {
  const short = sorties.filter(isShort);
  const unstated = sorties.filter(({ status }) => status === "not stated");
  const [first] = short;
  const parts: string[] = [];
  if (first !== undefined) {
    if (sorties.length > 1)
      parts.push(
        `${short.length} of ${sorties.length} sorties cannot load as planned.`,
        short.length > 1 ? `First: ${sortieSentence(plan, first)}` : sortieSentence(plan, first),
      );
    else parts.push(sortieSentence(plan, first));
    parts.push(commonCause(plan, short));
  }
  const [unstatedFirst] = unstated;
  if (unstatedFirst !== undefined)
    parts.push(
      unstated.length === 1
        ? sortieSentence(plan, unstatedFirst)
        : `${listed(
            unstated.map(({ name }) => name),
            MAX_CONDITIONS,
          )} state no propellant: nothing says what they need.`,
    );
  const [brokenFirst] = broken;
  if (brokenFirst !== undefined) {
    if (parts.length === 0 && sorties.length > 0)
      parts.push(`${allCan(sorties.length)}, but the plan cannot be flown.`);
    parts.push(brokenFirst);
    if (broken.length > 1)
      parts.push(`${counted(broken.length - 1, "more finding breaks", "more findings break")} the plan.`);
  }
  return parts.filter((part) => part !== "").join(" ");
};

const goIfSentence = (
  plan: PlanSnapshot,
  sorties: readonly SortieSupply[],
  conditioning: readonly PlanFinding[],
): string => {
  const thin = sorties.filter(({ status }) => status === "thin");
  const ifs = [
    ...(thin.length === 0
      ? []
      : [
          `${listed(
            thin.map(({ name }) => name),
            MAX_CONDITIONS,
          )} may use the reserve`,
        ]),
    ...new Set(conditioning.map((finding) => conditionOf(plan, finding))),
  ];
  const shown = ifs.slice(0, MAX_CONDITIONS);
  const rest = ifs.length - shown.length;
  const beginning = sorties.length === 0 ? "There is no sortie ahead; the plan holds" : allCan(sorties.length);
  return `${beginning}, if ${shown.join("; if ")}${rest > 0 ? `; and ${counted(rest, "more condition")}` : ""}.`;
};

/** What statuses and findings come to. */
export const verdictOf = (
  plan: PlanSnapshot,
  seen: { readonly sorties: readonly SortieSupply[]; readonly findings: readonly PlanFinding[] },
): Verdict => {
  const sorties = seen.sorties.toSorted(byTime);
  const found = Map.groupBy(seen.findings, weightOf);
  const words = (findings: readonly PlanFinding[] = []): readonly string[] => [
    ...new Set(findings.map((finding) => findingSentence(plan, finding))),
  ];
  const ofSorties = (weight: "breaks" | "conditions"): readonly string[] =>
    sorties.filter(({ status }) => weightOfStatus(status) === weight).map((sortie) => sortieSentence(plan, sortie));
  const broken = words(found.get("breaks"));
  const breaks = [...ofSorties("breaks"), ...broken];
  const conditions = [...ofSorties("conditions"), ...words(found.get("conditions"))];
  let notes: readonly string[] | null = null;
  const say = (word: Verdict["word"], sentence: string): Verdict => ({
    word,
    sentence: capitalised(sentence),
    breaks,
    conditions,
    // Written when they are read: each frame of a drag makes a verdict, and shows no notes.
    get notes() {
      notes ??= words(found.get("note"));
      return notes;
    },
  });
  const wrong = words(seen.findings.filter(({ kind }) => kind === "does not balance"));
  if (wrong.length > 0) return say("No verdict", wrong.join(" "));
  if (breaks.length > 0) return say("No-go", noGoSentence(plan, sorties, broken));
  if (conditions.length > 0) return say("Go, if", goIfSentence(plan, sorties, found.get("conditions") ?? []));
  if (sorties.length === 0) return say("Nothing to judge", "There is no sortie ahead to check.");
  return say("Go", `${allCan(sorties.length)} with the reserve kept.`);
};
