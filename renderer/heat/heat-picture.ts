/** The heat budget as steps: every path adds, the environment adds or takes, the coolers take, and what is left boils. */
import type { HeatBudget } from "../../app/storage/heat-budget.ts";
import type { Ink } from "../../app/picture/ink.ts";
import { line, type Picture, type Shape } from "../../app/picture/shape.ts";
import { formatNumber, formatSigned } from "../format/number.ts";

const ROW = 22;
/** In a narrow place each name stands above its bar. */
const TALL_ROW = 32;

/** One step from an amount of heat to another, W. */
interface Step {
  readonly name: string;
  readonly fromW: number;
  readonly toW: number;
  readonly kind: "path" | "environment" | "lift" | "net";
}

const stepsOf = (budget: HeatBudget): readonly Step[] => {
  let sum = 0;
  const steps: Step[] = budget.lines.map(({ label, heatW }) => {
    const fromW = sum;
    sum += heatW;
    return { name: label, fromW, toW: sum, kind: "path" };
  });
  if (budget.environmentFactor !== 1) {
    const name = `Environment × ${formatNumber(budget.environmentFactor, 2)}`;
    steps.push({ name, fromW: sum, toW: budget.heatInW, kind: "environment" });
  }
  if (budget.coolerMassKg > 0 || budget.liftW > 0) {
    steps.push({ name: "Lifted by coolers", fromW: budget.heatInW, toW: budget.netW, kind: "lift" });
  }
  return [...steps, { name: "Boils propellant", fromW: 0, toW: budget.netW, kind: "net" }];
};

/** Height of the whole picture. */
export const heatHeight = (budget: HeatBudget, isNarrow: boolean): number =>
  stepsOf(budget).length * (isNarrow ? TALL_ROW : ROW) + 4;

/** About what a letter takes at 12 pixels; a name longer than its place is cut. */
const LETTER = 6.4;

const cut = (text: string, room: number): string => {
  const most = Math.max(4, Math.floor(room / LETTER));
  return text.length <= most ? text : `${text.slice(0, most - 1)}…`;
};

const inkOf: { readonly [K in Step["kind"]]: Ink } = {
  path: "ink-soft",
  environment: "status-thin",
  lift: "accent",
  net: "ink",
};

export const heatPicture = (
  budget: HeatBudget,
  { width, height }: { width: number; height: number },
  isNarrow: boolean,
): Picture => {
  const steps = stepsOf(budget);
  const row = isNarrow ? TALL_ROW : ROW;
  const left = isNarrow ? 1 : Math.min(190, Math.round(width * 0.42));
  const right = isNarrow ? width - 1 : width - 80;
  const mostW = Math.max(1e-9, budget.heatInW, budget.describedW);
  const x = (watts: number): number => left + ((right - left) * watts) / mostW;
  const shapes: Shape[] = isNarrow ? [] : [line(left, 0, left, height, "hairline")];
  steps.forEach((step, place) => {
    const top = place * row + 2;
    const textY = top + (isNarrow ? 8 : row / 2);
    const barY = top + (isNarrow ? 22 : row / 2);
    const half = isNarrow ? 4 : 6;
    const isBold = step.kind === "net";
    if (isBold) shapes.push(line(0, top, width, top, "hairline"));
    const [a, b] = [x(Math.min(step.fromW, step.toW)), x(Math.max(step.fromW, step.toW))];
    const ink = inkOf[step.kind];
    const points = [a, barY - half, b, barY - half, b, barY + half, a, barY + half];
    // What takes away is hatched: it is told from what adds without its colour.
    const takes = step.toW < step.fromW;
    shapes.push(
      { kind: "area", points, ink, texture: takes ? "hatched" : "flat", alpha: takes ? 1 : 0.75 },
      { kind: "rect", x: a, y: barY - half, width: b - a, height: 2 * half, fill: null, edge: ink },
    );
    const figure = isBold ? formatNumber(step.toW, 2) : formatSigned(step.toW - step.fromW, 2);
    const name = cut(step.name, isNarrow ? width - 80 : left - 8);
    shapes.push(
      isNarrow
        ? { kind: "text", x: 0, y: textY, text: name, ink: "ink", size: 12, anchor: "start", isBold }
        : { kind: "text", x: left - 8, y: textY, text: name, ink: "ink", size: 12, anchor: "end", isBold },
      { kind: "text", x: width, y: textY, text: `${figure}\u202fW`, ink: "ink", size: 12, anchor: "end", isBold },
    );
  });
  return { width, height, groups: [{ clip: null, shapes }] };
};

/** The same in words. */
export const heatWords = (budget: HeatBudget): string =>
  stepsOf(budget)
    .map((step) => `${step.name} ${formatNumber(step.kind === "net" ? step.toW : step.toW - step.fromW, 2)} W`)
    .join(", ");
