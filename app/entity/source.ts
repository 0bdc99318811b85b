/** An outside source: where propellant enters the books. */
import { z } from "zod";
import { id, label, note } from "../ground/quantity.ts";
import { waterPlant } from "./water-plant.ts";

export const source = z.strictObject({
  id,
  name: label,
  kind: z.enum(["ground", "plant"]),
  note,
  /** What a plant makes, and when; null: not described, or not a plant. */
  plant: waterPlant.nullable().default(null),
});

export type Source = Readonly<z.infer<typeof source>>;
