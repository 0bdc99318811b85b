/**
 * Pictures as issues hold them. The form of today is read as it stands; that of earlier issues is read for good, its shapes
 * as the two that stand for them (`app/picture/kept-shape.ts`).
 */
import { z } from "zod";
import { everyKind } from "../ground/every-kind.ts";
import { type Ink, inks } from "../picture/ink.ts";
import type { LetteringShape, OutlineShape, PagePicture } from "../picture/kept-shape.ts";
import { type Shape, textSizes } from "../picture/shape.ts";

const figure = z.number();
const text = z.string().max(20_000);
const share = z.number().min(0).max(1);
const length = z.number().min(0).max(10_000);
const thick = z.number().min(0).max(100);
const size = z.number().gt(0).max(10_000);
const anchor = z.enum(["start", "middle", "end"]);
const dash = z.array(z.number().min(0).max(1000)).max(8);
const ink = z.enum(inks);
const points = z.array(figure).refine((all) => all.length % 2 === 0);

const shape = everyKind<Shape>()(
  z.discriminatedUnion("kind", [
    z.strictObject({
      kind: z.literal("path"),
      points,
      ink,
      width: thick,
      alpha: share.exactOptional(),
      dash: dash.exactOptional(),
    }),
    z.strictObject({
      kind: z.literal("area"),
      points,
      ink,
      texture: z.enum(["flat", "ruled", "hatched"]),
      alpha: share,
    }),
    z.strictObject({
      kind: z.literal("rect"),
      x: figure,
      y: figure,
      width: length,
      height: length,
      fill: ink.nullable(),
      edge: ink.nullable(),
      edgeWidth: thick.exactOptional(),
      corner: length.exactOptional(),
      alpha: share.exactOptional(),
      dash: dash.exactOptional(),
    }),
    z.strictObject({
      kind: z.literal("text"),
      x: figure,
      y: figure,
      text,
      ink,
      size: z.literal(textSizes),
      anchor,
      isBold: z.boolean().exactOptional(),
      alpha: share.exactOptional(),
      halo: ink.exactOptional(),
    }),
    z.strictObject({
      kind: z.literal("dot"),
      x: figure,
      y: figure,
      radius: length,
      fill: ink,
      edge: ink,
      edgeWidth: thick.exactOptional(),
    }),
    z.strictObject({
      kind: z.literal("status"),
      x: figure,
      y: figure,
      radius: length,
      status: z.enum(["supplied", "thin", "short", "not stated"]),
      alpha: share.exactOptional(),
    }),
  ]),
);

const box = z.strictObject({ x: figure, y: figure, width: length, height: length });

const picture = z.strictObject({
  width: size,
  height: size,
  groups: z.array(z.strictObject({ clip: box.nullable(), shapes: z.array(shape) })),
});

/** The names that inks had. */
const earlierInks = {
  text: "ink",
  quiet: "ink-soft",
  hairline: "hairline",
  ground: "raised",
  warning: "status-short",
  first: "propellant-0",
  second: "propellant-1",
  third: "propellant-2",
  fourth: "propellant-3",
  fifth: "propellant-4",
  sixth: "propellant-5",
} as const satisfies Readonly<Record<string, Ink>>;

const earlierInk = z
  .enum(Object.keys(earlierInks) as (keyof typeof earlierInks)[])
  .transform((name): Ink => earlierInks[name]);

const earlierShape = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("path").transform((): OutlineShape["kind"] => "outline"),
    // It goes into SVG as it stands: nothing but path data.
    path: z.string().regex(/^[MLHVCSQTAZmlhvcsqtaz0-9eE .,+-]*$/),
    stroke: earlierInk.nullable(),
    fill: earlierInk.nullable(),
    fillOpacity: share,
    width: thick,
    dash,
  }),
  z.strictObject({
    kind: z.literal("text").transform((): LetteringShape["kind"] => "lettering"),
    x: figure,
    y: figure,
    text,
    size: z.number().gt(0).max(200),
    ink: earlierInk,
    anchor,
    isBold: z.boolean(),
  }),
]);

const earlierPicture = z
  .strictObject({ width: size, height: size, shapes: z.array(earlierShape) })
  .transform(({ width, height, shapes }): PagePicture => ({ width, height, groups: [{ clip: null, shapes }] }));

export const keptPicture: z.ZodType<PagePicture> = z.union([picture, earlierPicture]);
