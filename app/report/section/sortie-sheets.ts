/** Sortie sheets: one for each way in which the plan's sorties are flown, leg by leg, with masses, margins and checks. */
import { formatMass } from "../../format/mass.ts";
import { formatNumber, withUnit } from "../../format/number.ts";
import { checkSentence } from "../../sortie/check-sentence.ts";
import type { SheetCheck } from "../../sortie/checks.ts";
import type { SortieSheet } from "../../sortie/sheet.ts";
import { stageSentence } from "../../sortie/stage-words.ts";
import type { Leg } from "../../sortie/leg.ts";
import { figureColumn, mass, massColumn, nothing, number, text, wordColumn } from "../cell.ts";
import type { ReportContext } from "../context.ts";
import { type Flown, flownIn, sheetId } from "../flown-sheets.ts";
import type { Block, Cell } from "../model.ts";
import { propellantName } from "../names.ts";
import { paperLook } from "../../picture/look.ts";
import { chartBlock } from "../chart-block.ts";
import { planePicture } from "../../picture/plane-picture.ts";
import { sortieMassPicture } from "../../picture/sortie-mass-picture.ts";
import { forecast } from "../../forecast/forecast.ts";
import { launchedPerKg } from "../../forecast/launched.ts";
import { planeCurve } from "../../sortie/plane-curve.ts";
import { PLANE_NOTES, PLANE_SPAN, planeSentence } from "../../sortie/plane-words.ts";
import { TOP_UP_HEADING, topUpWords } from "../../storage/top-up-words.ts";
import { nameIn } from "../../words/named.ts";

const profileName = (context: ReportContext, { demand }: Flown): string =>
  nameIn(context.main.view.plan.profiles, demand.profileId);

const crewWords = (count: number): string => (count === 0 ? "no crew" : `${String(count)} crew`);

/** Which lander and profile, with what aboard, and for which sorties. */
const heading = (context: ReportContext, flown: Flown): string => {
  const { sheet, demand, landerId, names } = flown;
  const { plan } = context.main.view;
  const craft = plan.craft.find(({ id }) => id === landerId);
  const lander = plan.craftClasses.find(({ id }) => id === craft?.classId)?.name ?? landerId;
  const unit = context.choices.massUnit;
  return (
    `${lander}, “${profileName(context, flown)}”, ${formatMass(demand.cargoDownKg, unit)} down, ${formatMass(demand.cargoUpKg, unit)} up, ${crewWords(demand.crew)}: ` +
    `${names.join(", ")}. ` +
    `Load ${formatMass(sheet.loadKg, unit)}, ${formatMass(sheet.startMassKg, unit)} at departure, ${formatMass(sheet.endMassKg, unit)} at return; ` +
    `${withUnit(formatNumber(sheet.totalDeltaVMPerS), "m/s")}, ${withUnit(formatNumber(sheet.durationDays, 1), "days")} away; ` +
    `of the engine used most ${formatNumber(sheet.ignitions)} ignitions and ${withUnit(formatNumber(sheet.burnSeconds), "s")} of burn.`
  );
};

/** What the tanks hold of a propellant when they are fullest, of the stage with the least room; null: not looked at. */
const capacityOf = (
  sheet: SortieSheet,
  propellantId: string,
): Extract<SheetCheck, { kind: "tank volume" | "cache volume" }> | null => {
  const room = (check: { readonly capacityKg: number; readonly neededKg: number }): number =>
    check.capacityKg - check.neededKg;
  const [least] = sheet.checks
    .flatMap((check) => (check.kind === "tank volume" && check.propellantId === propellantId ? [check] : []))
    .toSorted((a, b) => room(a) - room(b));
  return least ?? null;
};

const loadTable = (context: ReportContext, { sheet }: Flown, id: string): Block => ({
  kind: "table",
  id: `sortie-${id}-load`,
  caption: "Propellant: what is loaded, where it goes, and what room the tanks leave when they are fullest.",
  columns: [
    wordColumn("Propellant", 1.4),
    ...[
      "Load",
      "Burned",
      "Boil-off",
      "Crew, power",
      "Left behind",
      "Residual",
      "Mixture",
      "Reserve",
      "Returned",
      "Room",
    ].map((title) => massColumn(title, 1)),
  ],
  rows: sheet.lines.map((line): readonly Cell[] => {
    const room = capacityOf(sheet, line.propellantId);
    return [
      text(propellantName(context.main.view.plan, line.propellantId)),
      ...[
        line.loadKg,
        line.burnedKg,
        line.lostKg,
        line.consumedKg,
        line.leftBehindKg,
        line.residualKg,
        line.allowanceKg,
        line.reserveKg,
        line.returnKg,
      ].map(mass),
      room === null ? nothing : mass(room.capacityKg - room.neededKg),
    ];
  }),
});

/** Stage by stage; nothing where there is but one. */
const stageBlocks = (context: ReportContext, { sheet }: Flown): readonly Block[] =>
  sheet.stages.length < 2
    ? []
    : [{ kind: "list", items: sheet.stages.map((stage) => stageSentence(stage, context.choices.massUnit)) }];

const legCells = (leg: Leg): readonly Cell[] => [
  number(leg.stepIndex + 1, 0),
  text(leg.stage === null ? leg.name : `${leg.name} (${leg.stage})`),
  mass(leg.massBeforeKg),
  mass(leg.massAfterKg),
  leg.ispS === null ? nothing : number(leg.deltaVMPerS, 0),
  ...leg.stockBeforeKg.map((before, p) => mass(before - (leg.stockAfterKg[p] ?? 0))),
  leg.burnSeconds > 0 ? number(leg.burnSeconds, 0) : nothing,
  leg.thrustToWeight === null ? nothing : number(leg.thrustToWeight[0], 2),
  leg.thrustToWeight === null ? nothing : number(leg.thrustToWeight[1], 2),
];

const legTable = (context: ReportContext, { sheet }: Flown, id: string): Block => ({
  kind: "table",
  id: `sortie-${id}-legs`,
  caption:
    "Leg by leg: mass of the craft, what leaves its tanks (into a cache too; − taken up), burn time of each lit engine, full thrust over lunar weight at the beginning and end of a burn.",
  columns: [
    figureColumn("No.", null, 0.5),
    wordColumn("Leg", 2.6),
    massColumn("Before", 1),
    massColumn("After", 1),
    figureColumn("Δv", "m/s", 0.9),
    ...sheet.lines.map(({ propellantId }) =>
      massColumn(
        context.main.view.plan.propellants.find((each) => each.id === propellantId)?.symbol ?? propellantId,
        1,
      ),
    ),
    figureColumn("Burn", "s", 0.8),
    figureColumn("T/W", "start", 0.8),
    figureColumn("T/W", "end", 0.8),
  ],
  rows: sheet.legs.map(legCells),
});

const checkBlocks = (context: ReportContext, { sheet }: Flown): readonly Block[] => {
  const say = (isMet: boolean): readonly string[] =>
    sheet.checks
      .filter((check) => check.isMet === isMet)
      .map((check) => `${checkSentence(check, (id) => propellantName(context.main.view.plan, id))}.`);
  const findings = say(false);
  return [
    {
      kind: "paragraph",
      text:
        findings.length === 0
          ? `No findings; all ${String(sheet.checks.length)} checks hold:`
          : `${String(findings.length)} of ${String(sheet.checks.length)} checks do not hold:`,
    },
    ...(findings.length === 0
      ? []
      : [{ kind: "list", items: findings } as const, { kind: "paragraph", text: "These hold:" } as const]),
    { kind: "list", items: say(true) },
  ];
};

/** What the depot must give beyond the load. */
const topUpBlocks = (context: ReportContext, { landerId }: Flown): readonly Block[] => {
  const { craft, craftClasses, propellants } = context.main.view.plan;
  const classId = craft.find(({ id }) => id === landerId)?.classId;
  const items = topUpWords(craftClasses.find(({ id }) => id === classId)?.propellants ?? [], propellants);
  return items.length === 0
    ? []
    : [
        { kind: "paragraph", text: TOP_UP_HEADING },
        { kind: "list", items },
      ];
};

/** What the landing site off the orbit's plane costs over the day of lift-off; nothing where no site is stated. */
const planeBlocks = (
  context: ReportContext,
  { sheet, demand, landerId }: Flown,
  id: string,
  launched: ReadonlyMap<string, number>,
): readonly Block[] => {
  const { plan } = context.main.view;
  const profile = plan.profiles.find((each) => each.id === demand.profileId);
  const classId = plan.craft.find((each) => each.id === landerId)?.classId;
  const lander = plan.craftClasses.find((each) => each.id === classId)?.lander;
  if (!profile?.landing || !lander) return [];
  const curve = planeCurve(lander, profile, demand, PLANE_SPAN, launched);
  if (curve === null) return [];
  const { massUnit } = context.choices;
  const sentence = planeSentence(sheet, curve, massUnit);
  return [
    { kind: "paragraph", text: sentence },
    chartBlock({
      id: `sortie-${id}-plane`,
      caption: `${profile.name}: load by day of lift-off from ${profile.landing.site}`,
      description: `${sentence} Counted is the ${PLANE_NOTES.join("; ")}.`,
      picture: planePicture(curve, massUnit, { width: 500, height: 190 }, paperLook),
    }),
  ];
};

export const sortieSheetBlocks = (context: ReportContext): readonly Block[] => {
  const flown = flownIn(context);
  if (flown.length === 0)
    return [
      {
        kind: "paragraph",
        text: "No sortie of the period is computed from its lander by a profile; the demands are stated.",
      },
    ];
  const launched = launchedPerKg(context.main.view.plan, forecast(context.main.view.plan));
  return flown.flatMap((each, index): readonly Block[] => {
    const id = String(index + 1);
    return [
      { kind: "paragraph", text: heading(context, each) },
      chartBlock({
        id: sheetId(index),
        caption: `${profileName(context, each)}: mass by leg`,
        description: "Craft and cargo with each propellant upon it; legs by their numbers in the table.",
        picture: sortieMassPicture(
          each.sheet,
          context.main.view.plan.propellants,
          context.choices.massUnit,
          { width: 500, height: 150 },
          paperLook,
        ),
      }),
      ...stageBlocks(context, each),
      legTable(context, each, id),
      loadTable(context, each, id),
      ...topUpBlocks(context, each),
      ...planeBlocks(context, each, id, launched),
      ...checkBlocks(context, each),
    ];
  });
};
