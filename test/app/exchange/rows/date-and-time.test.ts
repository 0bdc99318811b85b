/** A date in one column and its time of day in another: found, asked about, and never half read. */
import { expect, it, test } from "vitest";
import { take } from "./tarn-rows.ts";
import { readClock } from "../../../../app/format/read-clock.ts";

const HOUR = 3_600_000;

it.each([
  ["14:05", 14 * HOUR + 5 * 60_000],
  ["00:00", 0],
  ["24:00", 24 * HOUR],
  ["12:00 am", 0],
  ["2:05 PM", 14 * HOUR + 5 * 60_000],
  ["06:00:30.5Z", 6 * HOUR + 30_500],
  // ISO 8601: 01:00 two hours east of Greenwich is 23:00 UTC of the day before.
  ["01:00+02:00", -HOUR],
] as const)("“%s” is a time of day", (text, ms) => expect(readClock(text)).toBe(ms));

it.each(["25:00", "24:01", "14:60", "13:00 pm", "0:30 am", "14", "", "2031-02-20 14:05"])("“%s” is none", (text) =>
  expect(readClock(text)).toBeNull(),
);

const instants = async (content: string) => {
  const { changes, readings, preview } = await take(null, content);
  return {
    preview,
    at: [
      ...changes.map((each) => (each.op === "put" && each.kind === "flight" ? each.value.arriveAt : null)),
      ...readings.map(({ at }) => at),
    ],
  };
};

test("readings with a column “Date” and a column “Time” are one instant each", async () => {
  const { at, preview } = await instants(
    "Tank,Date,Time (UTC),Level [kg],1 σ [kg]\nTarn hydrogen,2031-06-02,06:30,11000,150\nTarn hydrogen,2031-06-03,18:05:30,10990,150\n",
  );
  expect(preview.questions).toEqual([]);
  expect(preview.columns.map(({ to }) => to)).toEqual(["tank", "at", "at.time", "mass", "sigma"]);
  expect(at).toEqual([Date.UTC(2031, 5, 2, 6, 30), Date.UTC(2031, 5, 3, 18, 5, 30)]);
});

test("flights with “Arrival date” and “Arrival time” arrive at that minute, whatever the order of the columns", async () => {
  const { at } = await instants(
    "Flight,Arrival time,Vehicle,From,Depot,Arrival date\nPackhorse 20,14:05+02:00,Packhorse hull 2,Ground,Tarn,07.03.2032\n",
  );
  expect(at).toEqual([Date.UTC(2032, 2, 7, 12, 5)]);
});

test("times without dates are asked about by name", async () => {
  const { preview, at } = await instants("Flight,Vehicle,ETA\nPackhorse 20,Packhorse hull 2,14:05\n");
  expect(preview.questions.join(" ")).toMatch(/“ETA” holds times of day: which column holds their dates \(Arrives\)/);
  expect(at).toEqual([]);
});

test.each([
  ["2032-03-07", "", /A time of day is needed here/],
  ["", "14:05", /has no date: “Arrival date” is empty/],
  ["2032-03-07 06:30", "14:05", /has a time of its own, and so has “Arrival time”/],
])("“%s” and “%s” are refused with their line", async (date, time, reason) => {
  const { preview } = await instants(
    `Flight,Vehicle,From,Depot,Arrival date,Arrival time\nGood,Packhorse hull 2,Ground,Tarn,2032-04-07,14:05\nPackhorse 20,Packhorse hull 2,Ground,Tarn,${date},${time}\n`,
  );
  expect(preview.faults[0]?.line).toBe(3);
  expect(preview.faults[0]?.reason).toMatch(reason);
});

test("where one of the times is none, the columns are asked about; once decided, its row is a fault", async () => {
  const content =
    "Flight,Vehicle,From,Depot,Arrival date,Arrival time\nPackhorse 20,Packhorse hull 2,Ground,Tarn,2032-03-07,25:00\n";
  const asked = await take("flights", content);
  expect(asked.preview.questions.join(" ")).toMatch(/“Arrival date” and “Arrival time” would mean the same/);
  const columns = [
    { heading: "Arrival date", to: "arrives", unit: null },
    { heading: "Arrival time", to: "arrives.time", unit: null },
  ];
  const { preview } = await take("flights", content, { mapping: { columns } });
  expect(preview.faults).toMatchObject([{ line: 2, column: "Arrival time" }]);
  expect(preview.faults[0]?.reason).toMatch(/“25:00” is not a time of day/);
});
