/** Inks on white paper. */
import type { Ink } from "./picture.ts";

export const paperColours: Readonly<Record<Ink, string>> = {
  text: "#1c1f2a",
  quiet: "#5a5f6b",
  hairline: "#b9b5ac",
  ground: "#ffffff",
  warning: "#8f1d16",
  first: "#1f7aa6",
  second: "#3d2a8c",
  third: "#0f5a35",
  fourth: "#b0641c",
  fifth: "#7d4a57",
  sixth: "#1d2f38",
};
