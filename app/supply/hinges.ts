/** Which flights a sortie hinges on: those whose loss alone keeps it from flying when planned, or from flying at all. */
import type { Engine } from "../forecast/propagate.ts";
import { FATE, fatesOf } from "./fate.ts";
import type { Hinge } from "./answer.ts";

/** `base`: fates without a loss. The engine's input is put back. */
export const hingesOf = (engine: Engine, base: Uint8Array): readonly Hinge[] => {
  const { plan } = engine.run;
  return plan.flightIds.flatMap((flightId, flight) => {
    engine.input.flightIsLost[flight] = 1;
    const fates = fatesOf(engine.go());
    engine.input.flightIsLost[flight] = 0;
    const broken: Hinge[] = [];
    fates.forEach((fate, sortie) => {
      if (fate > (base[sortie] ?? 0) && fate >= FATE.waitsAndFlies)
        broken.push({
          sortieId: plan.sortieIds[sortie] ?? "",
          flightId,
          becomes: fate === FATE.waitsAndFlies ? "waits and flies" : "does not fly",
        });
    });
    return broken;
  });
};
