/** Which flights a sortie hinges on: those whose loss alone makes it short. */
import type { Engine } from "../forecast/propagate.ts";
import { STATUS } from "../forecast/run.ts";
import type { Hinge } from "./report.ts";

/** `base`: statuses without a loss. The engine's input is put back. */
export const hingesOf = (engine: Engine, base: Uint8Array): readonly Hinge[] => {
  const { plan } = engine.run;
  return plan.flightIds.flatMap((flightId, flight) => {
    engine.input.flightIsLost[flight] = 1;
    const { sortieStatus } = engine.go();
    engine.input.flightIsLost[flight] = 0;
    const broken: Hinge[] = [];
    sortieStatus.forEach((status, sortie) => {
      if (status === STATUS.short && base[sortie] !== STATUS.short)
        broken.push({ sortieId: plan.sortieIds[sortie] ?? "", flightId });
    });
    return broken;
  });
};
