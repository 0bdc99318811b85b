/** Sorties: a bar from loading to return with the name in it, and the status in shape and word below it. */
import { fitted } from "../../../app/picture/fitted.ts";
import { missingCase } from "../../../app/ground/missing-case.ts";
import type { Sortie } from "../../../app/entity/sortie.ts";
import type { SortieSupply } from "../../../app/supply/answer.ts";
import { statusInk } from "../../../app/picture/ink.ts";
import type { Ink } from "../../../app/picture/ink.ts";
import type { Shape } from "../../../app/picture/shape.ts";
import { formatMass } from "../../format/mass.ts";
import { asFlown } from "../model/as-flown.ts";
import type { TimelineModel } from "../model/timeline-model.ts";
import { assumedHatch } from "./assumed-look.ts";
import { SORTIE_BAR, type SortieBar, sortieBar } from "./bar.ts";
import { tellingPart } from "./flight-names.ts";
import type { Place } from "./place.ts";
import { NAME_REACH, type ViewFrame } from "./view-frame.ts";

const barFill = (sortie: Sortie): Ink | null => {
  switch (sortie.status) {
    case "planned":
      return "raised";
    case "departed":
      return "hairline";
    case "flown":
      return "ink-soft";
    case "stood down":
    case "cancelled":
      return null;
    default:
      return missingCase(sortie.status);
  }
};

export const sortieMark = (bar: SortieBar, supply: SortieSupply | undefined): Shape => {
  const isOff = bar.sortie.status === "stood down" || bar.sortie.status === "cancelled";
  return {
    kind: "rect",
    x: bar.x,
    y: bar.y,
    width: bar.width,
    height: bar.height,
    fill: barFill(bar.sortie),
    edge: supply?.status === "short" ? "status-short" : isOff ? "ink-soft" : "ink",
    edgeWidth: supply?.status === "short" ? 2 : 1.25,
    corner: 2,
    ...(isOff || supply?.outcome === "stands down" ? { dash: [4, 3] } : {}),
  };
};

/** Where a waiting sortie was planned. */
const ghostMark = (bar: SortieBar): Shape => ({
  kind: "rect",
  x: bar.x,
  y: bar.y,
  width: bar.width,
  height: bar.height,
  fill: null,
  edge: "ink-soft",
  edgeWidth: 1,
  corner: 2,
  dash: [2, 3],
});

/** The words below a bar, longest first: as many as have room are used. */
const statusWords = (model: TimelineModel, sortie: Sortie, supply: SortieSupply | undefined, frame: ViewFrame) => {
  const overdue = model.overdue.has(sortie.id) ? ["overdue"] : [];
  if (supply === undefined) return [[sortie.status, ...overdue].join(", "), ...overdue, sortie.status];
  const limiting = supply.lines.find((entry) => entry.propellantId === supply.limitingPropellantId);
  const propellant = model.plan.propellants.find((row) => row.id === supply.limitingPropellantId)?.name.toLowerCase();
  const word = supply.outcome === "waits and flies" ? `${supply.status}, waits` : supply.status;
  if (supply.status === "short" && limiting !== undefined) {
    const missing = formatMass(limiting.missingKg, frame.unit);
    return [`${word} by ${missing} of ${propellant ?? ""}`, `${word} by ${missing}`, word];
  }
  return overdue.length === 0 ? [word] : [`${word}, overdue`, word];
};

/** Every sortie on screen with its status; each row's words keep clear of the next bar. What is held comes last, on top. */
export const sortieShapes = (
  model: TimelineModel,
  place: Place,
  frame: ViewFrame,
  heldId: string | null,
): readonly Shape[] => {
  const supplies = new Map(model.glance.sorties.map((supply) => [supply.sortieId, supply]));
  // One that waits stands where it flies; where it was planned is a ghost. What is held stays under the hand.
  const bars = model.sorties.map((sortie) =>
    sortieBar(sortie.id === heldId ? sortie : asFlown(sortie, supplies.get(sortie.id)), place, frame.scale),
  );
  const seen = bars
    .filter((bar) => bar.x + bar.width >= frame.scale.left - 2 && bar.x <= frame.scale.right + 2)
    .sort((a, b) => a.x - b.x);
  const names = model.sorties.map(({ name }) => name);
  const others = seen.filter((bar) => bar.sortie.id !== heldId);
  const held = seen.filter((bar) => bar.sortie.id === heldId);
  return [
    ...model.sorties.flatMap((sortie): readonly Shape[] => {
      const isWaiting = sortie.id !== heldId && asFlown(sortie, supplies.get(sortie.id)) !== sortie;
      return isWaiting ? [ghostMark(sortieBar(sortie, place, frame.scale))] : [];
    }),
    ...others.flatMap((bar, index) => {
      const supply = supplies.get(bar.sortie.id);
      const next = others.slice(index + 1).find((other) => other.y === bar.y);
      return [
        sortieMark(bar, supply),
        ...(model.overdue.has(bar.sortie.id) ? assumedHatch(bar) : []),
        ...nameShapes(bar, next, names, frame),
        ...statusShapes(model, bar, supply, next, frame),
      ];
    }),
    // What is held says its name and status in the label under the pointer, so that it covers no other's.
    ...held.map((bar) => sortieMark(bar, supplies.get(bar.sortie.id))),
  ];
};

/** The name in the bar, or beside it where the bar is too short and the next one leaves room. */
const nameShapes = (
  bar: SortieBar,
  next: SortieBar | undefined,
  names: readonly string[],
  frame: ViewFrame,
): readonly Shape[] => {
  const { name, status } = bar.sortie;
  const y = bar.y + SORTIE_BAR / 2;
  const width = frame.measure(name, 12, true);
  const from = Math.max(bar.x, frame.scale.left) + 6;
  const until = Math.min(bar.x + bar.width, frame.scale.right) - 6;
  const besideX = bar.x + bar.width + 5;
  const isBeside = width > until - from;
  const besideEnd = (next?.x ?? frame.scale.right + NAME_REACH) - 5;
  if (isBeside && besideX + width > besideEnd) {
    // Where there is more room: the part that tells it apart, else as much as there is room for.
    const isBesideCut = besideEnd - besideX > until - from;
    const room = isBesideCut ? besideEnd - besideX : until - from;
    const wide = (candidate: string): number => frame.measure(candidate, 12, true);
    const telling = tellingPart(name, "", names);
    const text = wide(telling) <= room ? telling : fitted(name, room, wide);
    if (text === "") return [];
    return [nameText(text, isBesideCut ? besideX : from, y, !isBesideCut && status === "flown" ? "sheet" : "ink")];
  }
  const ink: Ink = barFill(bar.sortie) === null ? "ink-soft" : !isBeside && status === "flown" ? "sheet" : "ink";
  return [nameText(name, isBeside ? besideX : from, y, ink)];
};

const nameText = (text: string, x: number, y: number, ink: Ink): Shape => ({
  kind: "text",
  x,
  y,
  text,
  ink,
  size: 12,
  anchor: "start",
  isBold: true,
});

const statusShapes = (
  model: TimelineModel,
  bar: SortieBar,
  supply: SortieSupply | undefined,
  next: SortieBar | undefined,
  frame: ViewFrame,
): readonly Shape[] => {
  const y = bar.y + SORTIE_BAR + 10;
  const x = Math.max(bar.x, frame.scale.left) + 5;
  const until = next?.x ?? frame.scale.right + NAME_REACH;
  const mark: readonly Shape[] =
    supply === undefined || x + 5 > until ? [] : [{ kind: "status", x, y, radius: 4.5, status: supply.status }];
  const textX = supply === undefined ? x - 3 : x + 9;
  const room = until - 6 - textX;
  const text = statusWords(model, bar.sortie, supply, frame).find((words) => frame.measure(words, 12) <= room);
  if (text === undefined) return mark;
  const ink: Ink = supply === undefined ? "ink-soft" : statusInk[supply.status];
  return [
    ...mark,
    { kind: "text", x: textX, y, text, ink, size: 12, anchor: "start", isBold: supply?.status === "short" },
  ];
};
