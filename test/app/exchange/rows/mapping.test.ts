/** Columns of foreign tables: guessed, asked about, corrected, remembered. */
import { expect, it, test } from "vitest";
import type { ColumnChoice } from "../../../../app/ledger/column-mapping.ts";
import { ourColumns } from "../../../../app/exchange/rows/our-columns.ts";
import { headingWords, readHeading } from "../../../../app/exchange/rows/read-heading.ts";
import { separatorOf } from "../../../../app/exchange/rows/separator.ts";
import { take, tarnEntities } from "./tarn-rows.ts";

const columnsOf = (kind: "flights" | "sorties" | "readings") => ourColumns(kind, tarnEntities);

it.each([
  ["H2 [t]", "h2", "t"],
  ["Arrival (UTC)", "arrival", "utc"],
  ["mass, kg", "mass", "kg"],
  ["berth days", "berth", "days"],
  ["Départ", "depart", null],
  ["  Level [%] ", "level", "%"],
  ["%", "", "%"],
  ["launch_site", "launch site", null],
])("“%s” says “%s” in %s", (heading, words, unit) => expect(headingWords(heading)).toEqual({ words, unit }));

it.each([
  ["flights", "H2 [t]", "load.hydrogen", "t"],
  ["flights", "LOX (kg)", "load.oxygen", "kg"],
  ["flights", "hydrogen kg", "load.hydrogen", "kg"],
  ["flights", "Arrival (UTC)", "arrives", null],
  ["flights", "ETA", "arrives", null],
  ["flights", "Port stay [h]", "berth", "hours"],
  ["sorties", "hydrogen return kg", "return.hydrogen", "kg"],
  ["sorties", "Hydrogen loaded [t]", "load.hydrogen", "t"],
  ["readings", "kg", "mass", "kg"],
  ["readings", "%", "share", null],
  ["readings", "Level [%]", "share", null],
  ["readings", "Level [kg]", "mass", "kg"],
  ["readings", "1 σ, kg", "sigma", "kg"],
] as const)("among %s “%s” is %s", (kind, heading, to, unit) =>
  expect(readHeading(heading, columnsOf(kind))).toMatchObject({ to, unit, strangeUnit: null }),
);

it.each([
  ["flights", "H2 [st]", "st"],
  ["flights", "Arrival (CET)", "cet"],
  ["readings", "Level [bar]", "bar"],
] as const)("among %s the unit or zone of “%s” is not taken for another", (kind, heading, unit) =>
  expect(readHeading(heading, columnsOf(kind))?.strangeUnit).toBe(unit),
);

it.each(["hydrogn kg", "weather", "", "mass of nothing"])("“%s” means nothing among flights", (heading) =>
  expect(readHeading(heading, columnsOf("flights"))).toBeNull(),
);

test("the kind of rows is told by the headings", async () => {
  const kindOf = async (heading: string) => (await take(null, `${heading}\n`)).preview.kind;
  expect(await kindOf("Flight,Vehicle,ETA,LH2 [t]")).toBe("flights");
  expect(await kindOf("Sortie,Campaign,Lander,Loading,Return")).toBe("sorties");
  expect(await kindOf("Tank,Time,Level [%],Uncertainty [kg]")).toBe("readings");
});

const foreign = [
  "Flight;Vehicle;Launch site;Depot;Arrival (UTC);H2 [t]",
  "Packhorse 20;Packhorse hull 2;Ground;Tarn;07.03.2032 06:30;1,9",
  "Packhorse 21;Packhorse hull 3;Ground;Tarn;17.04.2032;1,85",
].join("\r\n");

test("a foreign table with semicolons, days first, decimal commas and tonnes is read as it is meant", async () => {
  const { preview, changes } = await take(null, foreign);
  expect(preview).toMatchObject({
    kind: "flights",
    questions: [],
    newRows: 2,
    separator: "semicolon",
    dates: { value: "day first", decision: "guessed" },
    decimals: { value: "comma", decision: "guessed" },
  });
  expect(
    changes.map((change) => (change.op === "put" && change.kind === "flight" ? change.value : null)),
  ).toMatchObject([
    {
      arriveAt: Date.UTC(2032, 2, 7, 6, 30),
      loads: expect.arrayContaining([{ propellantId: "hydrogen", loadedKg: 1900 }]) as unknown,
    },
    {
      arriveAt: Date.UTC(2032, 3, 17),
      loads: expect.arrayContaining([{ propellantId: "hydrogen", loadedKg: 1850 }]) as unknown,
    },
  ]);
  expect(preview.columns.find(({ heading }) => heading === "H2 [t]")).toMatchObject({
    samples: ["1,9", "1,85"],
    to: "load.hydrogen",
    unit: "t",
    decision: "guessed",
  });
});

test("a mass without a unit is asked about, and read once the unit is chosen", async () => {
  const text = "name,arrives,H2\nPackhorse 9,2031-12-01,1.9\n";
  const asked = await take("flights", text);
  expect(asked.preview.questions).toEqual(["In which unit is “H2”?"]);
  expect(asked.changes).toEqual([]);
  const columns: ColumnChoice[] = [{ heading: "H2", to: "load.hydrogen", unit: "t" }];
  const { preview, changes } = await take("flights", text, { mapping: { columns } });
  expect(preview).toMatchObject({ questions: [], faultCount: 0 });
  expect(JSON.stringify(changes)).toContain('"loadedKg":1900');
});

test("3/4/2031 is asked about, and 1,234 as well, unless something in the file says which", async () => {
  const dated = await take("flights", "name,arrives\nPackhorse 9,3/4/2031\n");
  expect(dated.preview.questions[0]).toMatch(/day or the month/);
  expect(
    (await take("flights", "name,arrives\nPackhorse 9,3/4/2031\n", { mapping: { dates: "month first" } })).preview
      .questions,
  ).toEqual([]);
  const figures = "tank;at;kg;sigma kg\nTarn hydrogen;2031-06-02;1,234;51\n";
  expect((await take("readings", figures)).preview.questions[0]).toMatch(/point or a comma/);
  const { readings } = await take("readings", figures, { mapping: { decimals: "comma" } });
  expect(readings[0]?.massKg).toBe(1.234);
  const sure = await take("readings", `${figures}Tarn hydrogen;2031-06-03;5612,5;51\n`);
  expect(sure.readings.map(({ massKg }) => massKg)).toEqual([1.234, 5612.5]);
});

test("two columns that would mean the same are asked about; a chosen one goes before a guess", async () => {
  const text = "name,arrival,eta\nPackhorse 9,2031-12-01,2031-12-02\n";
  expect((await take("flights", text)).preview.questions[0]).toMatch(
    /“arrival” and “eta” would mean the same|“eta” and/,
  );
  const columns: ColumnChoice[] = [
    { heading: "eta", to: "arrives", unit: null },
    { heading: "arrival", to: null, unit: null },
  ];
  const { preview, changes } = await take("flights", text, { mapping: { columns } });
  expect(preview.questions).toEqual([]);
  expect(changes[0]).toMatchObject({ value: { arriveAt: Date.UTC(2031, 11, 2) } });
});

test("what was decided is remembered for the same headings, and for no others", async () => {
  const text = "Who,When,Wind\nPackhorse 9,3/4/2032,7\n";
  const columns: ColumnChoice[] = [
    { heading: "Who", to: "name", unit: null },
    { heading: "When", to: "arrives", unit: null },
    { heading: "Wind", to: null, unit: null },
  ];
  const first = await take("flights", text, { mapping: { columns, dates: "day first" } });
  expect(first.preview).toMatchObject({ questions: [], changedRows: 1 });
  const headings = first.preview.columns.map(({ heading }) => heading);
  const remembered = [{ kind: "flights" as const, headings, mapping: first.preview.mapping }];
  const again = await take("flights", text.replace("3/4", "5/4"), { remembered });
  expect(again.preview).toMatchObject({
    questions: [],
    changedRows: 1,
    dates: { value: "day first", decision: "remembered" },
  });
  expect(again.preview.columns.map(({ decision }) => decision)).toEqual(["remembered", "remembered", "remembered"]);
  expect((await take("flights", text.replace("Wind", "Wnd"), { remembered })).preview.questions.length).toBeGreaterThan(
    0,
  );
  // What is chosen now goes before what is remembered.
  const other = await take("flights", text, { remembered, mapping: { dates: "month first" } });
  expect(other.changes[0]).toMatchObject({ value: { arriveAt: Date.UTC(2032, 2, 4) } });
});

test("an empty column of no meaning is left out without a question, one with values is not", async () => {
  const { preview } = await take("flights", "name,arrives,spare,\nPackhorse 9,2031-12-01,,\n");
  expect(preview.questions).toEqual([]);
  const nameless = await take("flights", "name,arrives,\nPackhorse 9,2031-12-01,1900\n");
  expect(nameless.preview.questions[0]).toMatch(/column C, without heading/);
});

it.each([
  ["a,b,c\n1,2,3", "comma"],
  ["a;b;c\n1,5;2,5;3,5", "semicolon"],
  ["a\tb\n1,5\t2,5", "tab"],
  ["a|b|c\n1|2|3", "bar"],
  ["Plan of May, June and July\na;b\n1,5;2\n1;2", "semicolon"],
  ['a,b\n"x;y;z",2\n"x;y",3', "comma"],
] as const)("%j is parted by a %s", (text, separator) => expect(separatorOf(text)).toBe(separator));
