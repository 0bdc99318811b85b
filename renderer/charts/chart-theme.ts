/** The colours and type of charts, read from the page's tokens as they stand in the present theme. */
import type { Ink } from "./shape.ts";

export interface ChartTheme {
  readonly colours: Readonly<Record<Ink, string>>;
  readonly font: string;
}

const inks: readonly Ink[] = [
  "ground",
  "sheet",
  "raised",
  "hairline",
  "rule",
  "edge",
  "ink",
  "ink-soft",
  "accent",
  "accent-ink",
  "accent-wash",
  "status-supplied",
  "status-thin",
  "status-short",
  "propellant-0",
  "propellant-1",
  "propellant-2",
  "propellant-3",
  "propellant-4",
  "propellant-5",
];

const grounds: ReadonlySet<Ink> = new Set<Ink>(["ground", "sheet", "raised", "accent-ink", "accent-wash"]);
const faint: ReadonlySet<Ink> = new Set<Ink>(["hairline", "rule"]);

/** Where the system forces its own few colours, the charts keep to them; textures and shapes still tell things apart. */
const forced = (ink: Ink): string => {
  if (grounds.has(ink)) return "Canvas";
  if (faint.has(ink)) return "GrayText";
  return ink === "accent" ? "Highlight" : "CanvasText";
};

/** Reads the tokens. A probe element resolves what differs between light and dark. */
export const readChartTheme = (within: HTMLElement): ChartTheme => {
  const isForced = matchMedia("(forced-colors: active)").matches;
  const probe = document.createElement("span");
  probe.hidden = true;
  within.append(probe);
  const style = getComputedStyle(probe);
  const colours = Object.fromEntries(
    inks.map((ink) => {
      probe.style.color = isForced ? forced(ink) : `var(--${ink})`;
      return [ink, style.color];
    }),
  ) as Record<Ink, string>;
  const font = style.fontFamily;
  probe.remove();
  return { colours, font };
};
