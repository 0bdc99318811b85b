/** Probabilities of a study are shown as per cent, and nothing else is. */
import { expect, test } from "vitest";
import { parseStudy } from "../../../app/study/resolve.ts";
import { packRows } from "../../../app/study/study-table.ts";
import { makeAxis } from "../../../app/picture/number-axis.ts";
import { cellWords } from "../../../renderer/study/point-columns.ts";

const names = ["all fly", "all fly when planned", "all fly: error", "Sortie 1: flies when planned", "sorties flown"];
const answer = {
  planCaseId: "base",
  planCase: "Baseline",
  inputHash: "",
  asked: parseStudy({
    name: "study",
    inputs: [{ quantity: "loss factor", values: { kind: "list", list: [0.5] } }],
    design: { kind: "grid" },
    ask: [{ kind: "risk" }],
  }),
  // An input that is called like an outcome stays what it is.
  inputs: [{ words: "all fly", unit: "", today: null }],
  columns: names.map((name) => ({ name, unit: "" })),
  points: 1,
  from: 0,
  rows: packRows([[0.5, 0.932, 0.004, 1, 0.75]], names.length),
  rankings: [],
};

test("the shares among the outcomes are per cent; an input, and a mean of sorties, are numbers", () => {
  expect(names.map((_, column) => cellWords(answer, 0, column, "t").replaceAll("\u202f", " "))).toEqual([
    "0.5",
    "93.2 %",
    "0.4 %",
    "100 %",
    "0.75",
  ]);
});

test("an axis of shares has its figures and its unit in per cent", () => {
  const axis = makeAxis({ words: "all fly", unit: "share" }, [0, 1], [0, 320], "t");
  expect(axis.title).toBe("All fly, %");
  expect(axis.ticks.map(({ label, at }) => [label, at])).toEqual([
    ["0", 0],
    ["20", 64],
    ["40", 128],
    ["60", 192],
    ["80", 256],
    ["100", 320],
  ]);
});
