/** An integrated descent or ascent over time: height, speed and throttle, one under the other on one time axis. */
import { ticks } from "d3-array";
import type { Flown, PoweredSample } from "../../../app/sortie/powered/flown.ts";
import { line, type Picture, type Shape } from "../../../app/picture/shape.ts";
import { formatNumber } from "../../format/number.ts";

interface Panel {
  readonly name: string;
  readonly share: number;
  readonly value: (sample: PoweredSample) => number;
  readonly figure: (value: number) => string;
}

const panels: readonly Panel[] = [
  { name: "height, km", share: 0.42, value: ({ heightM }) => heightM / 1000, figure: (v) => formatNumber(v) },
  { name: "speed, m/s", share: 0.36, value: ({ speedMPerS }) => speedMPerS, figure: (v) => formatNumber(v) },
  { name: "throttle, %", share: 0.22, value: ({ throttle }) => throttle * 100, figure: (v) => formatNumber(v) },
];

const MARGIN = { left: 52, right: 16, top: 18, bottom: 30, between: 24 } as const;

/** Throttle changes at once where the vertical phase begins, so its line is drawn as steps. */
const steps = (
  samples: readonly PoweredSample[],
  x: (s: number) => number,
  y: (v: number) => number,
  value: Panel["value"],
) =>
  samples.flatMap((sample, i) => {
    const before = samples[i - 1];
    const here = [x(sample.seconds), y(value(sample))];
    return before === undefined ? here : [x(sample.seconds), y(value(before)), ...here];
  });

export const flightPicture = (flown: Flown, size: { readonly width: number; readonly height: number }): Picture => {
  const { width, height } = size;
  const { samples } = flown;
  const left = MARGIN.left;
  const right = width - MARGIN.right;
  const room = height - MARGIN.top - MARGIN.bottom - MARGIN.between * (panels.length - 1);
  const last = samples.at(-1)?.seconds ?? 1;
  const x = (seconds: number): number => left + ((right - left) * seconds) / last;
  const shapes: Shape[] = [];
  let top: number = MARGIN.top;
  for (const panel of panels) {
    const bottom = top + room * panel.share;
    const highest = Math.max(1e-9, ...samples.map(panel.value));
    const y = (value: number): number => bottom - ((bottom - top) * value) / (highest * 1.08);
    for (const tick of ticks(0, highest, panel.share > 0.3 ? 4 : 2)) {
      shapes.push(line(left, y(tick), right, y(tick), "rule"));
      const text = panel.figure(tick);
      shapes.push({ kind: "text", x: left - 6, y: y(tick), text, ink: "ink-soft", size: 11, anchor: "end" });
    }
    const points =
      panel.name === "throttle, %"
        ? steps(samples, x, y, panel.value)
        : samples.flatMap((sample) => [x(sample.seconds), y(panel.value(sample))]);
    shapes.push(line(left, top, left, bottom, "hairline"), line(left, bottom, right, bottom, "hairline"));
    shapes.push({ kind: "path", points, ink: "accent", width: 1.5 });
    shapes.push({
      kind: "text",
      x: left,
      y: top - 8,
      text: panel.name,
      ink: "ink",
      size: 12,
      anchor: "start",
    });
    top = bottom + MARGIN.between;
  }
  const foot = height - MARGIN.bottom;
  for (const tick of ticks(0, last, 6)) {
    shapes.push(line(x(tick), foot, x(tick), foot + 4, "hairline"));
    const text = tick === 0 ? "0 s" : formatNumber(tick);
    shapes.push({ kind: "text", x: x(tick), y: foot + 13, text, ink: "ink-soft", size: 11, anchor: "middle" });
  }
  return { width, height, groups: [{ clip: null, shapes }] };
};
