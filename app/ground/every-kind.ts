/** A schema that the compiler holds against its type both ways: nothing that the type has not, and every kind that it has. */
import type { z } from "zod";

interface OfKind {
  readonly kind: string;
}

/** Kinds of the type that what the schema reads does not have. */
type Lacking<T extends OfKind, Read extends OfKind> = Exclude<T["kind"], Read["kind"]>;

/**
 * `everyKind<Block>()(schema)`: the schema as it is. Does not compile while a kind of the type has no member in it, which
 * an annotation alone (`z.ZodType<Block>`) lets pass.
 */
export const everyKind =
  <T extends OfKind>() =>
  <Read extends T>(
    schema: z.ZodType<Read>,
    ..._lacking: [Lacking<T, Read>] extends [never] ? [] : [lacking: Lacking<T, Read>]
  ): z.ZodType<T> =>
    schema;
