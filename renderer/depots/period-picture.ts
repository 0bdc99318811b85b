/**
 * What each tank loses over time, as a picture for paper: one line a tank, one piece for each stretch of constant rate.
 * Where the words of a piece have no room in it, it bears a number, and the words stand below.
 */
import { ratePieces } from "../../app/storage/loss-rate.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { line, type Measure, type Picture, type Shape } from "../../app/picture/shape.ts";
import { timeScale } from "../../app/picture/time-scale.ts";
import { timeTicks } from "../../app/picture/time-ticks.ts";
import { formatInstant } from "../format/instant.ts";
import { tankName } from "../names/entity-words.ts";
import { rateWords } from "../names/rate-words.ts";

const ROW = 28;
const BAR = 22;
const AXIS = 40;
const LISTED_ROW = 18;
const PAD = 6;

export const periodPicture = (plan: PlanSnapshot, fromAt: number, width: number, measure: Measure): Picture => {
  const tanks = plan.tanks.filter(({ id }) => plan.lossPeriods.some(({ tankId }) => tankId === id));
  const names = tanks.map(({ id }) => tankName(plan, id));
  const left = Math.max(0, ...names.map((name) => measure(name, 12))) + 16;
  const scale = timeScale(fromAt, Math.max(plan.horizonAt, fromAt + 1), left, width - 1);
  const bottom = tanks.length * ROW + 4;
  const listed: string[] = [];
  const rows = tanks.flatMap(({ id }, row): readonly Shape[] => {
    const middle = row * ROW + ROW / 2;
    const name: Shape = {
      kind: "text",
      x: left - 12,
      y: middle,
      text: names[row] ?? "",
      ink: "ink",
      size: 12,
      anchor: "end",
    };
    const periods = plan.lossPeriods.filter(({ tankId }) => tankId === id);
    const pieces = ratePieces(periods, fromAt, plan.horizonAt).flatMap((piece): readonly Shape[] => {
      if (piece.period === null) return [];
      const [x, end] = [scale.x(piece.fromAt), scale.x(piece.untilAt)];
      const words = `${piece.period.reason}, ${rateWords(piece)}`;
      const fits = measure(words, 11) + 2 * PAD <= end - x;
      if (!fits)
        listed.push(
          `${listed.length + 1}  ${names[row] ?? ""}, ${formatInstant(piece.fromAt)} to ${formatInstant(piece.untilAt)}: ${words}`,
        );
      const [top, low] = [middle - BAR / 2, middle + BAR / 2];
      const isPassing = piece.period.fromAt !== null && piece.period.untilAt !== null;
      const hatching: readonly Shape[] = isPassing
        ? [
            {
              kind: "area",
              points: [x, top, end, top, end, low, x, low],
              ink: "hairline",
              texture: "hatched",
              alpha: 1,
            },
          ]
        : [];
      return [
        ...hatching,
        { kind: "rect", x, y: top, width: end - x, height: BAR, fill: null, edge: "edge" },
        fits
          ? { kind: "text", x: x + PAD, y: middle, text: words, ink: "ink", size: 11, anchor: "start", halo: "sheet" }
          : {
              kind: "text",
              x: (x + end) / 2,
              y: middle,
              text: String(listed.length),
              ink: "ink",
              size: 11,
              anchor: "middle",
              isBold: true,
              halo: "sheet",
            },
      ];
    });
    return [name, ...pieces];
  });
  const list = listed.map((text, place): Shape => ({
    kind: "text",
    x: 0,
    y: bottom + AXIS + place * LISTED_ROW + LISTED_ROW / 2,
    text,
    ink: "ink",
    size: 11,
    anchor: "start",
  }));
  return {
    width: Math.max(width, ...listed.map((text) => Math.ceil(measure(text, 11)))),
    height: bottom + AXIS + list.length * LISTED_ROW,
    groups: [
      { clip: null, shapes: rows },
      { clip: null, shapes: axis(plan.asOfAt, scale, bottom, measure) },
      { clip: null, shapes: list },
    ],
  };
};

/** Dates below the rows, and the as-of instant as an upright line through them. */
const axis = (
  asOfAt: number,
  scale: ReturnType<typeof timeScale>,
  bottom: number,
  measure: Measure,
): readonly Shape[] => {
  const { fine, coarse } = timeTicks(scale);
  const label = (x: number, y: number, text: string, isBold: boolean): Shape => ({
    kind: "text",
    x,
    y,
    text,
    ink: "ink-soft",
    size: 11,
    anchor: isBold ? "start" : "middle",
    isBold,
  });
  const isInside = (x: number, text: string): boolean =>
    x - measure(text, 11) / 2 >= scale.left - 8 && x + measure(text, 11) / 2 <= scale.right + 8;
  const asOfX = scale.x(asOfAt);
  return [
    line(scale.left, bottom, scale.right, bottom, "hairline"),
    ...fine.map(({ x }) => line(x, bottom, x, bottom + 4, "hairline")),
    ...fine
      .filter(({ x, label: text }) => isInside(x, text))
      .map(({ x, label: text }) => label(x, bottom + 12, text, false)),
    ...coarse
      .filter(({ x, label: text }, place) => x + measure(text, 11, true) <= (coarse[place + 1]?.x ?? scale.right))
      .map(({ x, label: text }) => label(x, bottom + 28, text, true)),
    ...(asOfX >= scale.left && asOfX <= scale.right ? [line(asOfX, 0, asOfX, bottom, "ink", 1.5)] : []),
  ];
};
