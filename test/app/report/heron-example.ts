/** The small report context with sorties that Heron flies by a profile: two alike, one with a cache, one stated. */
import { heronCached, heronDirect, heronLander, heronMission } from "../../../app/demo/heron.ts";
import type { Lander } from "../../../app/entity/lander.ts";
import type { ReportContext } from "../../../app/report/context.ts";
import { exampleContext } from "./example.ts";

const DAY = 86_400_000;

/** `engines`: what differs in Heron's engines. */
export const heronContext = (engines: Partial<Lander["engines"]> = {}): ReportContext => {
  const context = exampleContext();
  const { plan } = context.main.view;
  const [stated] = plan.sorties;
  if (stated === undefined) throw new Error("the example has no sortie");
  const flies = (n: number, profileId: string) => ({
    ...stated,
    id: `sortie-${n}`,
    key: `sortie-${n}`,
    name: `Sortie ${n}`,
    loadAt: plan.asOfAt + n * 40 * DAY,
    returnAt: plan.asOfAt + (n * 40 + 14) * DAY,
    demand: { kind: "profile" as const, profileId, ...heronMission },
  });
  const hydrazine = {
    id: "hydrazine",
    name: "Hydrazine",
    symbol: "N2H4",
    fluid: null,
    densityKgPerM3: 1008,
    position: 2,
  };
  return {
    ...context,
    main: {
      ...context.main,
      view: {
        ...context.main.view,
        plan: {
          ...plan,
          propellants: [...plan.propellants, hydrazine],
          profiles: [heronDirect, heronCached],
          craftClasses: [
            {
              id: "heron",
              name: "Heron",
              role: "lander",
              propellants: [],
              tripDays: 14,
              berthDays: 0,
              turnaroundDays: 0,
              costPerFlight: null,
              costUnit: "",
              hardwareKg: null,
              note: "",
              lander: { ...heronLander, engines: { ...heronLander.engines, ...engines } },
            },
          ],
          craft: [{ id: "heron-1", classId: "heron", name: "Heron 1", note: "", engineChanges: [] }],
          sorties: [
            flies(1, "heron-direct"),
            flies(2, "heron-direct"),
            flies(3, "heron-cached"),
            { ...stated, id: "sortie-4", key: "sortie-4", name: "Sortie 4", loadAt: plan.asOfAt + 160 * DAY },
          ],
        },
      },
      // The supply report of the example knows two other sorties: these leave when they are planned to.
      supply: { ...context.main.supply, sorties: [] },
    },
  };
};
