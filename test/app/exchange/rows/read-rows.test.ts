/** Rows of flights, sorties and readings: what comes in, what it changes, and what is said of what does not. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { PlanningError } from "../../../../app/ground/failure.ts";
import { refusal, take, tarnEntities, tarnReadings } from "./tarn-rows.ts";
import { runs } from "../../../suite/runs.ts";

const HEAD = "name,craft,from,to,departs,arrives,hydrogen kg,note";

test("a good row becomes a flight; what it leaves out comes from the tanker's class", async () => {
  const { preview, changes } = await take(
    "flights",
    `${HEAD}\r\nPackhorse 20,Packhorse hull 2,Ground,Tarn,2032-03-01,2032-03-07T06:30Z,1900,"by road, then pad"\r\n`,
  );
  expect(preview).toMatchObject({ rows: 1, newRows: 1, faultCount: 0, questions: [], isTaken: false });
  expect(changes[0]).toMatchObject({
    op: "put",
    kind: "flight",
    value: {
      key: "packhorse-20",
      craftId: "packhorse-2",
      arriveAt: Date.UTC(2032, 2, 7, 6, 30),
      berthDays: 3,
      loads: [
        { propellantId: "hydrogen", loadedKg: 1900 },
        { propellantId: "oxygen", loadedKg: 8000 },
        { propellantId: "hydrazine", loadedKg: 130 },
      ].toSorted((a, b) => order(a.propellantId) - order(b.propellantId)),
      note: "by road, then pad",
    },
  });
});

const order = (id: string): number => tarnEntities.propellant.findIndex((row) => row.id === id);

test.each([
  ["2031-02-31", "1900", "departs", /“2031-02-31” is not a date/],
  ["2032-03-01T25:00Z", "1900", "departs", /is not a date/],
  ["2032-03-09", "1900", "arrives", /arrives before it departs/],
  ["2032-03-01", "plenty", "hydrogen kg", /“plenty” is not a number/],
  ["2032-03-01", "-5", "hydrogen kg", /at least 0|0/],
  ["2032-03-01", "99999", "hydrogen kg", /Packhorse holds .* not 99999 kg/],
])(
  "departs %s with %s kg of hydrogen is refused with its line, column and reason",
  async (departs, kg, column, reason) => {
    const { preview, changes } = await take(
      "flights",
      `${HEAD}\nGood,Packhorse hull 2,Ground,Tarn,2032-05-01,2032-05-07,1900,\nBad,Packhorse hull 2,Ground,Tarn,${departs},2032-03-07,${kg},\n`,
    );
    expect(changes).toHaveLength(1);
    expect(preview).toMatchObject({ faultCount: 1, faultyRows: 1 });
    expect(preview.faults[0]).toMatchObject({ line: 3, column });
    expect(preview.faults[0]?.reason).toMatch(reason);
  },
);

test("unknown craft and depots are named; a row of the wrong width is a fault", async () => {
  const { preview } = await take(
    "flights",
    `${HEAD}\nA,Nobody,Ground,Elsewhere,2032-03-01,2032-03-07,1,\nB,Packhorse hull 2\n`,
  );
  expect(preview).toMatchObject({ newRows: 0, faultyRows: 2 });
  expect(preview.faults.map(({ reason }) => reason).join(" ")).toMatch(/tanker “Nobody”.*depot “Elsewhere”.*2 cells/);
});

test("a flight that is there is found by its name; only what the file has is changed, and each change is said", async () => {
  const before = tarnEntities.flight.find(({ status }) => status === "planned")!;
  const arrives = new Date(before.arriveAt + 4 * 86_400_000).toISOString();
  const { preview, changes } = await take("flights", `name,arrives\n${before.name},${arrives}\n`);
  expect(preview).toMatchObject({ newRows: 0, changedRows: 1, faultCount: 0 });
  expect(preview.effects[0]?.fields.map(({ field }) => field)).toEqual(["departs", "arrives"]);
  expect(changes[0]).toMatchObject({
    value: { ...before, arriveAt: before.arriveAt + 4 * 86_400_000, departAt: before.departAt + 4 * 86_400_000 },
  });
});

test("a flight that has left is not given other dates by a table", async () => {
  const before = tarnEntities.flight.find(({ status }) => status === "arrived")!;
  const { preview, changes } = await take("flights", `name,arrives\n${before.name},2033-01-01\n`);
  expect(changes).toEqual([]);
  expect(preview.faults[0]?.reason).toMatch(/status “arrived”.*records/);
});

test("a new flight needs more than a name and a date, and is told what", async () => {
  const { preview } = await take("flights", "name,arrives\nPackhorse 99,2033-01-01\n");
  expect(preview.faults[0]?.reason).toMatch(
    /no flight of this name or key, and a new one needs: a tanker, where from\./,
  );
});

test("a sortie of a known name is changed in place and keeps its profile", async () => {
  const { changes, preview } = await take(
    "sorties",
    "name,campaign,lander,depot,loads\nSortie 4,South Rim Survey,Heron 1,Tarn,2032-02-27\n",
  );
  expect(preview.effects[0]).toMatchObject({ what: "changed", name: "Sortie 4" });
  expect(changes[0]).toMatchObject({
    value: { id: "baseline.sortie-4", loadAt: Date.UTC(2032, 1, 27), demand: { kind: "profile" } },
  });
});

test("a percentage is of the maximum fill; no uncertainty and a level far above the tank are refused", async () => {
  const { readings, preview } = await take(
    "readings",
    "tank,at,kg,%,sigma kg\nTarn hydrogen,2031-06-02,,50,51\nTarn hydrogen,2031-06-03,5000,,0\nTarn hydrogen,2031-06-04,90000,,51\n",
  );
  expect(readings.map(({ massKg }) => massKg)).toEqual([8500]);
  expect(preview.faults.map(({ line, column }) => `${line} ${column}`)).toEqual(["3 sigma kg", "4 kg"]);
});

test("a reading that is there already is left as it is; another mass at its instant is refused", async () => {
  const known = tarnReadings[0]!;
  const at = new Date(known.at).toISOString();
  const same = await take("readings", `tank,at,kg,sigma kg\n${known.tankId},${at},${known.massKg},${known.sigmaKg}\n`);
  expect(same).toMatchObject({ preview: { unchangedRows: 1, faultCount: 0 }, readings: [] });
  const other = await take("readings", `tank,at,kg,sigma kg\n${known.tankId},${at},${known.massKg + 1},51\n`);
  expect(other.preview.faults[0]?.reason).toMatch(/already.*withdraw it first/);
});

test("what was withdrawn may be read again under an id of its own", async () => {
  const withdrawn = {
    ...tarnReadings[0]!,
    id: `reading-tarn-hydrogen-${Date.UTC(2031, 5, 1)}`,
    tankId: "tarn-hydrogen",
    at: Date.UTC(2031, 5, 1),
    isWithdrawn: true,
  };
  const { readings } = await take("readings", "tank,at,kg,sigma kg\nTarn hydrogen,2031-06-01,5000,51\n", {
    known: [withdrawn],
  });
  expect(readings[0]?.id).toBe(`${withdrawn.id}-2`);
});

test("a column that means nothing is asked about by name, and nothing is read on a guess", async () => {
  const { preview, changes } = await take(
    "flights",
    "name,craft,from,to,arrives,hydrogn kg\nA,Packhorse hull 2,Ground,Tarn,2032-03-07,1\n",
  );
  expect(changes).toEqual([]);
  expect(preview.questions).toEqual([expect.stringMatching(/“hydrogn kg” means nothing here/)]);
});

test("missing columns are named, a heading that stands twice is refused, and so are an empty file and one of blanks", async () => {
  expect((await take("readings", "tank,at\nTarn hydrogen,2031-06-02\n")).preview.questions).toEqual([
    "No column says: Standard uncertainty, Mass.",
  ]);
  expect(await refusal(take("flights", "name,name,arrives\n"))).toMatch(/“name” stands there twice/);
  expect(await refusal(take("flights", ""))).toMatch(/empty/);
  expect(await refusal(take("flights", " \n\n , ,\n"))).toMatch(/empty/);
});

test("a file of headings alone has no rows, and says so by its counts", async () => {
  expect((await take("flights", `${HEAD}\n`)).preview).toMatchObject({
    rows: 0,
    newRows: 0,
    questions: [],
    faultCount: 0,
  });
});

test("a quotation mark that is never closed is said with its line", async () => {
  expect(await refusal(take("flights", `${HEAD}\nA,"Packhorse hull 2,Ground,Tarn,2032-03-01,2032-03-07,1,\n`))).toMatch(
    /quotation mark is opened and never closed/,
  );
});

test("the headings may stand below a title, and their line is said", async () => {
  const { preview } = await take("flights", `Fleet plan,,,,,,,\n,,,,,,,\n${HEAD}\n`);
  expect(preview.readAs).toMatch(/headings in line 3/);
});

test("any text at all gives a preview or a refusal in words, never another error", async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom("flights" as const, "sorties" as const, "readings" as const, null),
      fc.oneof(
        fc.string({ maxLength: 400 }),
        fc.string({ unit: "binary", maxLength: 200 }),
        fc.string({ maxLength: 200 }).map((tail) => `${HEAD}\n${tail}`),
        fc.uint8Array({ maxLength: 200 }),
      ),
      async (kind, content) => {
        try {
          const { preview, changes, readings } = await take(kind, content);
          expect(preview.newRows + preview.changedRows).toBe(changes.length + readings.length);
        } catch (error) {
          expect(error).toBeInstanceOf(PlanningError);
        }
      },
    ),
    { numRuns: runs(200) },
  );
});
