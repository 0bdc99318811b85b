/**
 * Keeps sheets as the program of form 150 computed them, before landers had stages: random landers and profiles with what
 * came out, in grams and seconds. Run once with that program (a seed of its own, no library); never made again.
 */
import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { demoBeck } from "../../../../app/demo/beck.ts";
import { demoTarn } from "../../../../app/demo/tarn.ts";
import type { Lander } from "../../../../app/entity/lander.ts";
import type { ProfileStep, Reserve } from "../../../../app/entity/profile.ts";
import { sortieSheet } from "../../../../app/sortie/sheet.ts";
import { burn, densities, plainLander, stay } from "../example.ts";

let seed = 20_311_203;
/** The next number in 0 to 1, by a linear congruence: good enough to scatter inputs. */
const next = (): number => {
  seed = (seed * 1_664_525 + 1_013_904_223) % 4_294_967_296;
  return seed / 4_294_967_296;
};
const between = (low: number, high: number): number => Number((low + (high - low) * next()).toPrecision(6));

const randomStep = (): ProfileStep => {
  const kind = Math.floor(next() * 5);
  if (kind < 2) return burn(between(0, 1500), { marginPercent: between(0, 5), throttle: between(0.2, 1) });
  if (kind === 2) return stay(between(0, 40), { powerKw: between(0, 8) });
  if (kind === 3)
    return { kind: "thruster burn", name: "trim", system: "small", amount: { kind: "delta-v", mPerS: 40 }, marginPercent: 5 };
  return { kind: "jettison", name: "drop", massKg: between(0, 400), tanks: [{ propellantId: "oxygen", volumeM3: 2, residualKg: 7 }] };
};

const randomLander = (): Lander => ({
  ...plainLander,
  dryKg: between(3000, 20_000),
  engines: { ...plainLander.engines, ispMinimumS: between(400, 450), mixtureSpreadPercent: between(0, 3), mixtureRatio: between(4, 7) },
  tanks: plainLander.tanks.map((tank) => ({ ...tank, kPerDay: between(0, 0.02), cKgPerDay: between(0, 5), residualKg: between(0, 200) })),
  fuelCells: [
    { propellantId: "hydrogen", kgPerKwh: 0.0418 },
    { propellantId: "oxygen", kgPerKwh: 0.3316 },
  ],
  crew: [{ propellantId: "oxygen", kgPerPersonDay: 0.9 }],
});

const randomReserve = (): Reserve => {
  const kind = Math.floor(next() * 3);
  if (kind === 0) return { kind: "percent of load", percent: between(0, 4) };
  if (kind === 1) return { kind: "delta-v", mPerS: between(0, 150) };
  return { kind: "mass", lines: [{ propellantId: "oxygen", massKg: between(0, 900) }] };
};

const missions = [
  { cargoDownKg: 1000, cargoUpKg: 100, crew: 2 },
  { cargoDownKg: 0, cargoUpKg: 0, crew: 0 },
];
/** Every profile of both demonstrations with two loads. */
const demos = [demoTarn(), demoBeck()].flatMap(({ programme, entities }) =>
  (entities.profile ?? []).flatMap((profile) => {
    const lander = entities.craftClass?.find(({ id }) => id === profile.classId)?.lander;
    if (!lander) return [];
    return missions.map((mission) => ({
      name: `${programme}, ${profile.name}, ${String(mission.crew)} persons`,
      lander,
      profile: { steps: profile.steps, reserve: profile.reserve, landing: profile.landing },
      mission,
      propellants: (entities.propellant ?? []).map(({ id, densityKgPerM3 }) => ({ id, densityKgPerM3 })),
    }));
  }),
);
const random = Array.from({ length: 24 }, (_, i) => ({
  name: `random ${String(i + 1)}`,
  lander: randomLander(),
  profile: { steps: Array.from({ length: 1 + Math.floor(next() * 8) }, randomStep), reserve: randomReserve(), landing: null },
  mission: { cargoDownKg: between(0, 2000), cargoUpKg: between(0, 500), crew: Math.floor(next() * 5) },
  propellants: densities,
}));
const kept = [...demos, ...random].map((input) => {
  const sheet = sortieSheet(input.lander, input.profile, input.mission, input.propellants);
  const grams = (kg: number): number => Math.round(kg * 1000);
  return {
    ...input,
    gave: {
      lines: sheet.lines.map(({ propellantId, loadKg, returnKg, burnedKg, lostKg }) => ({
        propellantId,
        loadG: grams(loadKg),
        returnG: grams(returnKg),
        burnedG: grams(burnedKg),
        lostG: grams(lostKg),
      })),
      startG: grams(sheet.startMassKg),
      ignitions: sheet.ignitions,
      burnSeconds: Number(sheet.burnSeconds.toFixed(6)),
      findings: sheet.findings.length,
    },
  };
});
writeFileSync(fileURLToPath(new URL("./form-150-sheets.json", import.meta.url)), `${JSON.stringify(kept)}\n`);
