/** What the properties of a kind of row are where nothing is said of them: so that a new one need not be said everywhere. */
import { z } from "zod";

type Defaulted<S extends z.ZodRawShape> = { [P in keyof S]: S[P] extends z.ZodDefault ? P : never }[keyof S];

/** The defaults of those properties that have one in their schema, in its order. */
export const defaultsOf = <S extends z.ZodRawShape>(
  schema: z.ZodObject<S>,
): Pick<z.output<z.ZodObject<S>>, Defaulted<S> & keyof z.output<z.ZodObject<S>>> =>
  Object.fromEntries(
    Object.entries(schema.shape).flatMap(([property, each]) =>
      each instanceof z.ZodDefault ? [[property, each.parse(undefined)]] : [],
    ),
  ) as never;
