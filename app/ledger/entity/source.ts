/** An outside source: where propellant enters the books. */
import { z } from "zod";
import { id, label, note } from "../quantity.ts";

export const source = z.strictObject({ id, name: label, kind: z.enum(["ground", "plant"]), note });

export type Source = Readonly<z.infer<typeof source>>;
