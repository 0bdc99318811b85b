/**
 * What DEVELOPERS.md says that the compiler says: for each sentence the member that somebody would add, and the files that
 * must then not compile until they know it. The gate tries them all, in a copy.
 */

export interface PromiseOfCompiler {
  /** As it stands in DEVELOPERS.md. */
  readonly sentence: string;
  /** Where the new member goes: after `after`, which stands there once. */
  readonly file: string;
  readonly after: string;
  readonly member: string;
  /** Each must have a fault that names the new member. */
  readonly pointsAt: readonly string[];
  readonly names: RegExp;
  /** So many faults in each; absent: one. */
  readonly times?: number;
  /** No other file may have a fault that names it. */
  readonly isAll?: true;
  /** Tried apart from those of other sentences, whose faults would stand before its own. */
  readonly isApart?: true;
}

export const promisesOfCompiler: readonly PromiseOfCompiler[] = [
  {
    sentence: "The compiler now points at the handlers in `main/service/handler/`",
    file: "app/contract/contract.ts",
    after: "  ...copiesOperations,\n",
    member: '  "new.query": query("New", nothing, gives<Hello>()),\n',
    pointsAt: ["main/service/handlers.ts"],
    names: /new\.query/,
  },
  {
    sentence: "`db/columns.ts`, if an entity changed; the compiler says where.",
    file: "app/entity/flight.ts",
    after: "export const flight = z.strictObject({\n",
    member: "  newField: z.number(),\n",
    pointsAt: ["db/columns.ts"],
    names: /newField/,
    isApart: true,
  },
  {
    sentence: "the compiler asks for it there and in `db/columns.ts`, and nowhere else",
    file: "app/entity/flight.ts",
    after: "  lostAt: instant.nullable().default(null),\n",
    member: "  newOfFlight: z.number().nullable().default(null),\n",
    pointsAt: ["app/fields/flight-fields.ts", "db/columns.ts"],
    names: /newOfFlight/,
    isAll: true,
    isApart: true,
  },
  {
    sentence: "the compiler asks for it there and in `db/columns.ts`, and nowhere else",
    file: "app/entity/sortie.ts",
    after: "  stoodDownAt: instant.nullable().default(null),\n",
    member: "  newOfSortie: z.number().nullable().default(null),\n",
    pointsAt: ["app/fields/sortie-fields.ts", "db/columns.ts"],
    names: /newOfSortie/,
    isAll: true,
    isApart: true,
  },
  {
    sentence: "the compiler then asks the form, the table and the rows how they do it",
    file: "app/fields/flight-fields.ts",
    after: '        { id: "vent", name: "vent" },\n      ],\n    }',
    member: ' && ({ kind: "own", said: () => [] } as const)',
    pointsAt: [
      "renderer/forms/flight-form.tsx",
      "renderer/timeline/table/flight-cells.ts",
      "renderer/timeline/table/columns.tsx",
      "app/exchange/rows/our-columns.ts",
      "app/exchange/rows/write-rows.ts",
      "app/exchange/rows/plan-rows.ts",
    ],
    names: /overflow/,
  },
  {
    sentence: "A line in `renderer/views.ts` (the compiler asks for it)",
    file: "renderer/state/app-state.ts",
    after: "export type ViewId =\n",
    member: '  | "new view"\n',
    pointsAt: ["renderer/views.ts"],
    names: /new view/,
  },
  {
    sentence: "A new kind of block also goes into `app/report/finished.ts` (the compiler asks for it)",
    file: "app/report/model.ts",
    after: "export type Block =\n",
    member: '  | { readonly kind: "new block" }\n',
    // The schema's fault is that an argument is missing: its words name no kind.
    pointsAt: ["app/report/finished.ts"],
    names: /Expected 2 arguments/,
  },
  {
    sentence: "the writers of each form end in `missingCase` and do not compile either",
    file: "app/report/model.ts",
    after: "export type Cell =\n",
    member: '  | { readonly kind: "new cell" }\n',
    pointsAt: ["app/report/format/cell-text.ts", "main/report/xlsx.ts"],
    names: /new cell/,
  },
  {
    sentence: "the compiler leads to the canvas, SVG, PDF, to what a drag changes and to the schema of kept issues",
    file: "app/picture/shape.ts",
    after: "export type Shape = ",
    member: '{ readonly kind: "new shape" } | ',
    // Of the schema's fault the words name no kind.
    pointsAt: [
      "renderer/charts/draw.ts",
      "renderer/charts/damage.ts",
      "app/picture/svg-node.ts",
      "main/report/pdf-shape.ts",
      "app/report/kept-picture.ts",
    ],
    names: /new shape|Expected 2 arguments/,
  },
  {
    sentence:
      "a sentence in `app/supply/finding-sentence.ts`, a weight in `app/supply/weight.ts` and where it leads in `renderer/supply/finding-subject.ts` (the compiler asks for all three)",
    file: "app/supply/answer.ts",
    after: "export type PlanFinding =\n",
    member: '  | { readonly kind: "new finding" }\n',
    pointsAt: ["app/supply/finding-sentence.ts", "app/supply/weight.ts", "renderer/supply/finding-subject.ts"],
    names: /new finding/,
  },
  {
    sentence: "and what it leads to in `renderer/drop/what-to-do.ts` (the compiler asks for it)",
    file: "app/contract/dropped-file.ts",
    after: "export const droppedKinds = {\n",
    member: '  xyz: { what: "new drop", words: "something new" },\n',
    pointsAt: ["renderer/drop/what-to-do.ts"],
    names: /new drop/,
  },
  {
    sentence: "the compiler leads to its columns, its rules, its words, its form and the demonstrations",
    file: "app/entity/entities.ts",
    after: "export const entitySchemas = {\n",
    member: "  newKind: propellant,\n",
    pointsAt: [
      "db/columns.ts",
      "app/ledger/rules/check-plan.ts",
      "app/ledger/change-line.ts",
      "renderer/forms/entity-form.tsx",
      "renderer/forms/fresh.ts",
      "renderer/inspector/references.ts",
      "app/demo/tarn.ts",
    ],
    names: /newKind/,
  },
  {
    sentence: "the compiler leads to what it loses (`app/storage/loss-rate.ts`)",
    file: "app/entity/loss-period.ts",
    after: 'export const lossBasis = z.discriminatedUnion("kind", [\n',
    member: '  z.strictObject({ kind: z.literal("new basis") }),\n',
    pointsAt: ["app/storage/loss-rate.ts"],
    names: /new basis/,
  },
  {
    sentence:
      "the compiler leads to its default (`app/risk/default-inputs.ts`), its words (`input-words.ts`), its subjects (`inputs-in-force.ts`) and its form (`renderer/uncertainty/fresh-law.ts`)",
    file: "app/entity/risk-input.ts",
    after: 'export const uncertainty = z.discriminatedUnion("quantity", [\n',
    member: '  z.strictObject({ quantity: z.literal("new quantity"), of: ofTanks, law: levelLaw }),\n',
    pointsAt: [
      "app/risk/default-inputs.ts",
      "app/risk/input-words.ts",
      "app/risk/inputs-in-force.ts",
      "renderer/uncertainty/fresh-law.ts",
    ],
    names: /new quantity/,
  },
  {
    sentence: "the compiler leads to `resolve.ts`, twice: to the change and to its turn among the others",
    file: "app/study/question.ts",
    after: 'export const inputAsked = z.discriminatedUnion("quantity", [\n',
    member: '  z.strictObject({ quantity: z.literal("new input"), values }),\n',
    pointsAt: ["app/study/resolve.ts"],
    names: /"new input"/,
    times: 2,
  },
];
