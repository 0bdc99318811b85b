/** Names that are nearly right are asked about; an end that can only be one is taken; a row of totals is none. */
import { describe, expect, it, test } from "vitest";
import { isNear } from "../../../../app/exchange/rows/near-names.ts";
import { take, tarnEntities } from "./tarn-rows.ts";

test.each([
  ["Packhorse 7", "packhorse 7"],
  ["Packhorse 7", "Packhorse  07"],
  ["Packhorse 7", "Packhorse-7"],
  ["Packhorse 7", "Packhrose 7"],
  ["Packhorse 7", "Packhorsse 7"],
  ["Étoile 2", "Etoile 2"],
])("“%s” and “%s” are nearly one name", (a, b) => {
  expect([isNear(a, b), isNear(b, a)]).toEqual([true, true]);
});

test.each([
  ["Packhorse 7", "Packhorse 8"],
  ["Packhorse 7", "Packhorse 17"],
  ["Drover A", "Drover B"],
  ["Sortie 2", "Sortie 2b"],
  ["Packhorse 7", "Drover 7"],
  ["Packhorse 7", "Packhorse 7"],
  ["", "Packhorse"],
])("“%s” and “%s” are not", (a, b) => {
  expect([isNear(a, b), isNear(b, a)]).toEqual([false, false]);
});

const HEADING = "name,craft,to,departs,arrives,hydrogen kg";

describe("a flight by a name that is nearly one of the plan's", () => {
  it("is asked about, and makes no second flight", async () => {
    const { preview, changes } = await take("flights", `${HEADING}\npackhorse 6,,,2031-08-01,2031-08-07,2000\n`);
    expect(changes).toEqual([]);
    expect(preview.faults[0]?.reason).toMatch(/The plan has “Packhorse 6”, and none of just this name/);
  });

  it("is a new one where it has a key of its own", async () => {
    const line = "packhorse 6,Packhorse hull 1,Tarn,2031-08-01,2031-08-07,2000,another-6,Ground";
    const { preview } = await take("flights", `${HEADING},key,from\n${line}\n`);
    expect(preview).toMatchObject({ faultCount: 0, newRows: 1 });
  });

  it("so is a tanker, with the name that may be meant", async () => {
    const { preview } = await take("flights", `${HEADING}\nRelief,Packhorse hul 1,Tarn,2031-08-01,2031-08-07,2000\n`);
    expect(preview.faults.map(({ reason }) => reason).join(" ")).toContain("Is “Packhorse hull 1” meant?");
  });
});

describe("a new flight that does not say an end", () => {
  const row = (craft: string) => `name,craft,arrives\nRelief,${craft},2031-08-07\n`;

  it("takes the only source and the only depot", async () => {
    const [ground] = tarnEntities.source;
    const [depot] = tarnEntities.depot;
    const entities = { ...tarnEntities, source: [ground!], depot: [depot!] };
    const { preview, changes } = await take("flights", row("Packhorse hull 1"), { entities });
    expect(preview.faultCount).toBe(0);
    expect(changes[0]).toMatchObject({
      value: { origin: { kind: "source", sourceId: ground!.id }, depotId: depot!.id },
    });
  });

  it("is refused where there are two ways", async () => {
    const [depot] = tarnEntities.depot;
    const entities = { ...tarnEntities, depot: [depot!, { ...depot!, id: "second", name: "Second" }] };
    const { preview, changes } = await take("flights", row("Packhorse hull 1"), { entities });
    expect(changes).toEqual([]);
    expect(preview.faults[0]?.reason).toMatch(/needs: where from, a depot/);
  });
});

describe("a row of totals", () => {
  const two = "Packhorse 6,,,2031-08-01,2031-08-07,2000\nPackhorse 7,,,2031-09-01,2031-09-07,1500\n";

  it.each(["Total,,,,,3500", "Grand total:,,,,,3500", "Sum,,,,,", ",,,,,3500"])(
    "“%s” is passed over with a word",
    async (line) => {
      const { preview, changes } = await take("flights", `${HEADING}\n${two}${line}\n`);
      expect(preview).toMatchObject({ rows: 2, faultCount: 0 });
      expect(preview.remarks).toEqual(["Line 4 only adds up the others, and is passed over."]);
      expect(changes).toHaveLength(2);
    },
  );

  it("is none where its figures are not the sums, or where a flight is called so", async () => {
    const other = await take("flights", `${HEADING}\n${two},,,,,3400\n`);
    expect(other.preview.faultCount).toBeGreaterThan(0);
    const flight = tarnEntities.flight.find(({ status }) => status === "planned")!;
    const entities = {
      ...tarnEntities,
      flight: [...tarnEntities.flight, { ...flight, id: "t", key: "t", name: "Total" }],
    };
    const { preview } = await take("flights", `${HEADING}\nTotal,,,,,1234\n`, { entities });
    expect(preview).toMatchObject({ rows: 1, changedRows: 1, remarks: [] });
  });

  it("of readings is passed over as well", async () => {
    const { preview, readings } = await take(
      "readings",
      "tank,at,kg,sigma kg\nTarn hydrogen,2031-03-03T00:00Z,5000,51\nTotal,,5000,\n",
    );
    expect(preview).toMatchObject({ rows: 1, newRows: 1, faultCount: 0 });
    expect(readings).toHaveLength(1);
  });
});
