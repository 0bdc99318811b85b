/** The colours and type of charts, read from the page's tokens as they stand in the present theme. */
import { type Ink, inks, type Theme } from "../../app/picture/ink.ts";

const grounds: ReadonlySet<Ink> = new Set<Ink>(["ground", "sheet", "raised", "accent-ink", "accent-wash"]);
const faint: ReadonlySet<Ink> = new Set<Ink>(["hairline", "rule"]);

/** Where the system forces its own few colours, the charts keep to them; textures and shapes still tell things apart. */
const forced = (ink: Ink): string => {
  if (grounds.has(ink)) return "Canvas";
  // Rules stay behind what they are for; the system's grey may be as loud as its ink.
  if (faint.has(ink)) return `color-mix(in srgb, CanvasText ${ink === "rule" ? "18%" : "40%"}, Canvas)`;
  return ink === "accent" ? "Highlight" : "CanvasText";
};

/** A colour in the form that every program reads, "#1f57a4". The canvas is the converter: it knows all that CSS does. */
const inHex = (context: CanvasRenderingContext2D, colour: string): string => {
  context.fillStyle = colour;
  context.fillRect(0, 0, 1, 1);
  const [red = 0, green = 0, blue = 0] = context.getImageData(0, 0, 1, 1).data;
  return `#${[red, green, blue].map((part) => part.toString(16).padStart(2, "0")).join("")}`;
};

/** After the page's own typeface, what other machines have in its place. */
const PAPER_FONTS = ["Atkinson Hyperlegible Next", "Helvetica", "Arial", "sans-serif"];

/** The light theme on white paper, whatever the page wears: for what leaves the program. */
export const readPaperTheme = (within: HTMLElement): Theme => {
  const canvas = document.createElement("canvas");
  canvas.width = 1;
  canvas.height = 1;
  const context = canvas.getContext("2d", { willReadFrequently: true });
  if (context === null) throw new Error("This window cannot draw. Restart Coldstock.");
  const probe = document.createElement("span");
  probe.hidden = true;
  probe.style.colorScheme = "light";
  within.append(probe);
  const style = getComputedStyle(probe);
  const colourOf = (token: string): string => {
    probe.style.color = `var(--${token})`;
    return inHex(context, style.color);
  };
  const colours = Object.fromEntries(
    inks.map((ink) => [ink, colourOf(ink === "sheet" || ink === "raised" ? "paper" : ink)]),
  ) as Record<Ink, string>;
  const first = style.fontFamily.split(",")[0] ?? "";
  probe.remove();
  return { colours, font: [first, ...PAPER_FONTS].filter((name) => name !== "").join(", ") };
};

/** Reads the tokens. A probe element resolves what differs between light and dark. */
export const readChartTheme = (within: HTMLElement): Theme => {
  const isForced = matchMedia("(forced-colors: active)").matches;
  const probe = document.createElement("span");
  probe.hidden = true;
  probe.style.setProperty("forced-color-adjust", "none");
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
