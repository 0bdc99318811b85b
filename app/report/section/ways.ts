/** Ways by different vehicles: what each takes from the ground, the break-even, and what moves it most. */
import type { CraftClass } from "../../entity/craft.ts";
import { movesMost } from "../../ways/break-even.ts";
import type { LiftedBy, WayLifted } from "../../ways/lifted.ts";
import { breakEvenSentence, liftedNotes, movesMostSentence } from "../../ways/lifted-words.ts";
import { depotWaiting } from "../../ways/depot-waiting.ts";
import { flownWay, usualMission } from "../../ways/usual-mission.ts";
import { vehicleWays } from "../../ways/vehicle-way.ts";
import { type WayAcross, waysAcross } from "../../ways/ways-across.ts";
import { figureColumn, mass, massColumn, nothing, number, text, wordColumn } from "../cell.ts";
import type { ReportContext } from "../context.ts";
import type { Block, Cell } from "../model.ts";
import { paperLook } from "../../picture/look.ts";
import { chartBlock } from "../chart-block.ts";
import { breakEvenPicture } from "../../picture/break-even-picture.ts";
import { movedPicture } from "../../picture/moved-picture.ts";

const rows = (ways: readonly WayAcross[]): readonly (readonly Cell[])[] =>
  ways.flatMap(({ way, lifted, campaign }): readonly (readonly Cell[])[] =>
    lifted === null || campaign === null
      ? []
      : [
          [
            text(way.name),
            mass(lifted.each.propellantKg),
            mass(lifted.each.onTheWayKg),
            mass(lifted.each.atDepotKg),
            mass(lifted.each.craftKg + lifted.each.carrierKg),
            mass(lifted.each.totalKg),
            mass(campaign.totalKg),
            number(campaign.tankerFlights, 0),
            number(campaign.newCraft, 0),
            campaign.cost === null ? nothing : number(campaign.cost, 0),
          ],
        ],
  );

/** How each way of another class stands against the reference, with a picture of the first that has a break-even. */
const comparison = (
  context: ReportContext,
  reference: WayLifted,
  ways: readonly WayAcross[],
  by: LiftedBy,
  sorties: number,
): readonly Block[] => {
  const { massUnit } = context.choices;
  const others = ways.flatMap(({ lifted, against }) => {
    if (lifted === null || against === null || lifted.way.craftClass.id === reference.way.craftClass.id) return [];
    const moved = against.kind === "at" ? movesMost(reference.way, lifted.way, by) : [];
    const words = [breakEvenSentence(reference, lifted, against, massUnit), movesMostSentence(moved)];
    return [{ lifted, found: against, moved, sentence: words.filter((part) => part !== "").join(" ") }];
  });
  const shown = others.find(({ found }) => found.kind === "at") ?? others[0];
  if (shown === undefined) return [];
  const { lifted, found, moved, sentence } = shown;
  const names = `${reference.way.name} and ${lifted.way.name}`;
  return [
    { kind: "list", items: others.map((other) => other.sentence) },
    chartBlock({
      id: "ways-break-even",
      caption: `From the ground by number of sorties: ${names}`,
      description: sentence,
      picture: breakEvenPicture(
        { a: reference, b: lifted, found, sorties, massUnit },
        { width: 500, height: 170 },
        paperLook,
      ),
    }),
    ...(found.kind === "at" && moved.length > 0
      ? [
          chartBlock({
            id: "ways-break-even-inputs",
            caption: `What moves the break-even: ${names}`,
            description: movesMostSentence(moved),
            picture: movedPicture(found, moved, 500, paperLook),
          }),
        ]
      : []),
  ];
};

const caption = (tanker: CraftClass, sorties: number): string =>
  `From the ground by ${tanker.name}: for one further sortie its propellant, what is lost of it on the way and at the depot, and hardware; then all ${String(sorties)} planned sorties with the first, tanker flights and new craft.`;

export const waysBlocks = (context: ReportContext): readonly Block[] => {
  const { plan } = context.main.view;
  const ways = vehicleWays(plan);
  const tanker = plan.craftClasses.find(({ role }) => role === "tanker");
  if (tanker === undefined || new Set(ways.map(({ craftClass }) => craftClass.id)).size < 2)
    return [
      {
        kind: "paragraph",
        text: "No second class of lander has a description and a profile, so there is nothing to compare.",
      },
    ];
  const by: LiftedBy = {
    tanker,
    mission: usualMission(plan),
    propellants: plan.propellants,
    waiting: depotWaiting(plan),
  };
  const sorties = Math.max(1, plan.sorties.filter(({ status }) => status === "planned").length);
  // What the plan itself flies is what the others are set against.
  const usual = flownWay(plan, ways)?.id ?? null;
  const found = waysAcross(ways, by, sorties, usual);
  const refused = found.ways.flatMap(({ way, refusal }) => (refusal === null ? [] : [`${way.name}: ${refusal}.`]));
  const notCounted = [...new Set(found.ways.flatMap(({ lifted }) => lifted?.notCounted ?? []))];
  return [
    {
      kind: "table",
      id: "ways",
      caption: caption(tanker, sorties),
      columns: [
        wordColumn("Way", 2.8),
        massColumn("Propellant", 1),
        massColumn("On the way", 0.9),
        massColumn("At depot", 0.9),
        massColumn("Hardware", 1),
        massColumn("Each sortie", 1),
        massColumn("All", 1),
        figureColumn("Tankers", null, 0.8),
        figureColumn("New craft", null, 0.8),
        figureColumn("Cost", tanker.costUnit === "" ? null : tanker.costUnit, 0.9),
      ],
      rows: rows(found.ways),
    },
    ...(refused.length === 0 ? [] : [{ kind: "list", items: refused } as const]),
    ...(found.reference === null ? [] : comparison(context, found.reference, found.ways, by, sorties)),
    {
      kind: "list",
      items: [...liftedNotes(by), ...notCounted].map((note) => `${note.charAt(0).toUpperCase()}${note.slice(1)}.`),
    },
  ];
};
