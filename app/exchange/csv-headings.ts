/** The headings that a CSV file of each kind may have. A misspelt one is refused: passed over, it would change a mass in silence. */
import { PlanningError } from "../contract/failure.ts";
import type { EntitySet } from "../ledger/entities.ts";
import type { CsvPreview } from "./csv-preview.ts";

interface Headings {
  readonly needed: readonly string[];
  readonly optional: readonly string[];
  /** Columns that each propellant has, after its id or name: "hydrogen kg". */
  readonly perPropellant: readonly string[];
}

const headingsOf: Readonly<Record<CsvPreview["kind"], Headings>> = {
  flights: {
    needed: ["name", "craft", "from", "to", "arrives"],
    optional: ["key", "departs", "berth days", "overflow", "status", "note"],
    perPropellant: ["kg"],
  },
  sorties: {
    needed: ["name", "campaign", "lander", "depot", "loads"],
    optional: ["key", "returns", "status", "note"],
    perPropellant: ["load kg", "return kg"],
  },
  readings: { needed: ["tank", "at", "sigma kg"], optional: ["depot", "kg", "%", "note"], perPropellant: [] },
};

/** Throws "invalid input" for a heading that is missing, or that means nothing here. `headings` in lower case. */
export const refuseHeadings = (kind: CsvPreview["kind"], headings: readonly string[], entities: EntitySet): void => {
  const { needed, optional, perPropellant } = headingsOf[kind];
  const missing = needed.filter((heading) => !headings.includes(heading));
  if (missing.length > 0) throw new PlanningError("invalid input", `The heading lacks: ${missing.join(", ")}.`, "text");
  const ofPropellants = entities.propellant.flatMap(({ id, name }) =>
    perPropellant.flatMap((ending) => [`${id} ${ending}`, `${name.toLowerCase()} ${ending}`]),
  );
  const known = new Set([...needed, ...optional, ...ofPropellants, ""]);
  const strange = headings.filter((heading) => !known.has(heading)).map((heading) => `“${heading.slice(0, 40)}”`);
  if (strange.length > 0)
    throw new PlanningError(
      "invalid input",
      `The heading has columns that mean nothing here: ${strange.slice(0, 10).join(", ")}. Known are: ${[...new Set([...needed, ...optional, ...ofPropellants])].join(", ")}.`,
      "text",
    );
};
