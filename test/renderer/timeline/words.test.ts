/** What the timeline says. */
import { describe, expect, it } from "vitest";
import { timelineModel } from "../../../renderer/timeline/model/timeline-model.ts";
import { consequences } from "../../../renderer/timeline/words/consequence.ts";
import { flightWords, levelWords, sortieWords } from "../../../renderer/timeline/words/item-words.ts";
import { summaryWords } from "../../../renderer/timeline/words/summary.ts";
import { day, smallCase, smallPlan } from "./small-plan.ts";

const current = smallCase();
const model = timelineModel(current, null, null)!;
const plain = (text: string): string => text.replaceAll("\u202f", " ");

it("a flight says when it goes, comes and leaves, and what it brings", () => {
  expect(plain(flightWords(model.plan, model.flights[0]!, "auto"))).toBe(
    "Wagon 1, planned, departs 2031-01-11, arrives 2031-01-21, at the port 5 days, with 3.00 t of hydrogen and 12.00 t of oxygen",
  );
});

describe("a sortie that lacks oxygen", () => {
  // Without flights there are 15 t of oxygen, 0.4 t of them heel: 20 t are asked, 5.4 t are missing; hydrogen boils off.
  const bare = smallCase({ flights: [] });
  it("says by how much it is short", () => {
    const [sortie] = bare.plan.sorties;
    expect(plain(sortieWords(bare.plan, sortie!, bare.glance.sorties[0], "auto"))).toBe(
      "Sortie 1, short by 408 kg of hydrogen and 5.40 t of oxygen, stands down, loads 2031-02-10, returns 2031-02-24",
    );
  });
  it("is named as a consequence, and only what changed is", () => {
    const words = plain(consequences(bare.plan, current.glance, bare.glance, "auto"));
    expect(words).toContain("Sortie 1 is short by 408 kg of hydrogen and 5.40 t of oxygen.");
    expect(consequences(bare.plan, bare.glance, bare.glance, "auto")).toBe("Every sortie keeps its status.");
  });
});

it("a level says where it begins and ends and what bounds it", () => {
  const words = plain(levelWords(model, model.levels[1]!, day(-30), day(10), "auto"));
  expect(words).toBe(
    "Oxygen from 2030-12-02 to 2031-01-11, 15.00 t at the start, 15.00 t at the end, maximum fill 40.00 t, reserve 2.00 t",
  );
});

it("the whole is summed up, the port conflict named", () => {
  const words = summaryWords(model);
  expect(words).toMatch(/^Shelf from 2030-12-02 to 2031-07-20: 3 flights, 2 sorties\./);
  // Wagon 2 is at the only port from day 70 to 75; Wagon 3 comes on day 72.
  expect(words).toContain("2 flights (Wagon 2 and Wagon 3) need Shelf's one port");
});

it("an empty plan is summed up too", () => {
  const empty = timelineModel(smallCase({ flights: [], sorties: [] }), null, null)!;
  expect(summaryWords(empty)).toContain("no flights, no sorties");
  expect(smallPlan().flights).toHaveLength(3);
});
