/** A check of the sheet as a sentence for a person. */
import { formatMass } from "../format/mass.ts";
import { formatNumber, formatPercent, withUnit } from "../format/number.ts";
import { missingCase } from "../ground/missing-case.ts";
import type { SheetCheck } from "./checks.ts";

const percent = (share: number): string => formatPercent(share * 100, share < 0.1 ? 1 : 0);
const ignitions = (count: number): string => (count === 1 ? "1 ignition" : `${String(count)} ignitions`);
const engines = (count: number): string => (count === 1 ? "1 engine" : `${String(count)} engines`);

const sentenceOf = (check: SheetCheck, nameOf: (propellantId: string) => string): string => {
  switch (check.kind) {
    case "tank volume":
    case "cache volume": {
      const where = check.cache === null ? "the tanks hold" : `the cache "${check.cache}" holds`;
      // Fullest at departure goes without saying; later it is a tank that was dropped or left behind.
      const when = check.cache === null && check.stepIndex > 0 ? ` before leg ${String(check.stepIndex + 1)}` : "";
      const words = `${nameOf(check.propellantId)}: ${formatMass(check.neededKg)} needed${when}, ${where} ${formatMass(check.capacityKg)}`;
      return check.isMet ? words : `${words}: ${formatMass(check.neededKg - check.capacityKg)} too much`;
    }
    case "thrust to weight":
      return `Thrust is ${formatNumber(check.thrustToWeight, 2)} times lunar weight at ${check.at} with ${engines(check.enginesLit)}${check.isMet ? "" : ": the engines cannot carry the craft"}`;
    case "one engine out":
      return `With one engine out thrust is ${formatNumber(check.thrustToWeight, 2)} times lunar weight at ${check.at}${check.isMet ? "" : ": the sortie does not survive the loss of an engine there"}`;
    case "hover throttle": {
      const words = `Hovering at touchdown with ${engines(check.enginesLit)} takes ${percent(check.hoverThrottle)} of thrust; the lowest throttle is ${percent(check.minimumThrottle)}`;
      if (check.isMet) return words;
      if (check.hoverThrottle > 1) return `${words}: it cannot hover`;
      const able = check.withEngines.filter(({ canHover }) => canHover).map(({ lit }) => String(lit));
      const way = able.length > 0 ? ` (with ${able.join(" or ")} lit it could)` : "";
      return `${words}: it cannot hold a soft touchdown, only stop at zero height by an exactly timed cut-off${way}`;
    }
    case "vertical phase":
      return `The vertical phase takes ${percent(check.throttle[0])} to ${percent(check.throttle[1])} of thrust${check.isMet ? "" : `; the engines run at ${percent(check.minimumThrottle)} to 100 %`}`;
    case "terrain clearance": {
      const words = `The engines stop ${formatNumber(check.cutOffM / 1000, 1)} km up on the ascent`;
      if (check.clearM === null)
        return `${words}; state the height of ground that the coast must clear: none is stated`;
      const ground = `${formatNumber(check.clearM / 1000, 1)} km of ground must be cleared`;
      return check.isMet ? `${words}; ${ground}` : `${words}, and ${ground}`;
    }
    case "ignitions":
      return check.rated === null
        ? `${ignitions(check.used)} a sortie; the engine has no rating`
        : `${ignitions(check.used)} a sortie of ${String(check.rated)} rated`;
    case "burn time":
      return check.rated === null
        ? `${withUnit(formatNumber(check.used), "s")} of burn a sortie; the engine has no rating`
        : `${withUnit(formatNumber(check.used), "s")} of burn a sortie of ${withUnit(formatNumber(check.rated), "s")} rated`;
    case "surface stay": {
      const days = (value: number): string => `${formatNumber(value, 1)} days`;
      const lies =
        check.takes === "nothing"
          ? `Lift-off after ${days(check.stayDays)} is in the orbit's plane`
          : `Lift-off after ${days(check.stayDays)} lies ${formatNumber(check.offDeg, 1)}° off the orbit's plane and takes ${formatNumber(check.mPerS)} m/s more by a ${check.takes}`;
      return check.better === null
        ? lies
        : `${lies}; after ${days(check.better.stayDays)} the sortie would need ${formatMass(check.better.savingKg)} less`;
    }
    default:
      return missingCase(check);
  }
};

/** `nameOf` gives a propellant's name by its id. A check of a further stage begins with its name. */
export const checkSentence = (check: SheetCheck, nameOf: (propellantId: string) => string): string => {
  const stage = "stage" in check ? check.stage : null;
  return `${stage === null ? "" : `${stage}: `}${sentenceOf(check, nameOf)}`;
};
