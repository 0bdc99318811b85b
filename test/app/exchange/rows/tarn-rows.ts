/** Files taken against the demonstration Tarn's first plan case, from bytes to rows. */
import { demoTarn } from "../../../../app/demo/tarn.ts";
import {
  type ColumnMapping,
  noMapping,
  type RememberedMapping,
  type RowKind,
} from "../../../../app/ledger/column-mapping.ts";
import { type CalendarForms, noForms } from "../../../../app/exchange/calendar/calendar-forms.ts";
import type { RowsTaking } from "../../../../app/exchange/rows/read-rows.ts";
import type { EntitySet } from "../../../../app/entity/entities.ts";
import type { Reading } from "../../../../app/ledger/journal.ts";
import { takeSource } from "../../../../main/exchange/take-source.ts";

const tarn = demoTarn();
export const planCaseId = "baseline";
const ofCase = <T extends { readonly planCaseId: string | null }>(rows: readonly T[]): readonly T[] =>
  rows.filter((row) => row.planCaseId === null || row.planCaseId === planCaseId);

export const tarnReadings: readonly Reading[] = tarn.readings;
export const tarnEntities: EntitySet = {
  ...tarn.entities,
  lossPeriod: ofCase(tarn.entities.lossPeriod),
  campaign: ofCase(tarn.entities.campaign),
  flight: ofCase(tarn.entities.flight),
  sortie: ofCase(tarn.entities.sortie),
};

interface Taken {
  readonly mapping?: Partial<ColumnMapping>;
  readonly calendar?: Partial<CalendarForms>;
  readonly remembered?: readonly RememberedMapping[];
  readonly sheet?: string;
  readonly entities?: EntitySet;
  readonly known?: readonly Reading[];
  readonly ledgerId?: string;
}

/** `content`: text is handed over as UTF-8 bytes. */
export const take = async (
  kind: RowKind | null,
  content: string | Uint8Array,
  more: Taken & { readonly fileName?: string } = {},
): Promise<RowsTaking> =>
  await takeSource(
    {
      source: { fileName: more.fileName ?? "rows.csv", base64: Buffer.from(content as string).toString("base64") },
      kind,
      sheet: more.sheet ?? null,
      calendar: { ...noForms, ...more.calendar },
      mapping: { ...noMapping, ...more.mapping },
      remembered: more.remembered ?? [],
      target: {
        entities: more.entities ?? tarnEntities,
        planCaseId,
        ledgerId: more.ledgerId ?? null,
        known: more.known ?? tarnReadings,
        openings: [],
      },
    },
    () => undefined,
  );

export const refusal = async (taking: Promise<unknown>): Promise<string> => {
  try {
    await taking;
  } catch (error) {
    return error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  }
  throw new Error("it was not refused");
};
