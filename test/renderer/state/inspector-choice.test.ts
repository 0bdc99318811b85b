/** When the inspector is there. */
import { expect, test } from "vitest";
import {
  INSPECTOR_WIDTH,
  type InspectorChoice,
  fittingWidth,
  inspectorAfterSelecting,
  isInspectorShown,
  toggledInspector,
} from "../../../renderer/state/inspector-choice.ts";

const choices: readonly InspectorChoice[] = ["auto", "kept", "away"];

test("the command always turns what is seen into its opposite", () => {
  for (const choice of choices)
    for (const hasContent of [true, false]) {
      const next = toggledInspector(choice, hasContent);
      expect(isInspectorShown(next, hasContent)).toBe(!isInspectorShown(choice, hasContent));
    }
});

test("whatever was chosen, a selection shows it", () => {
  for (const choice of choices) expect(isInspectorShown(inspectorAfterSelecting(choice, true), true)).toBe(true);
});

test("without a selection the view has the room, unless the inspector is kept", () => {
  expect(choices.filter((choice) => isInspectorShown(inspectorAfterSelecting(choice, false), false))).toEqual(["kept"]);
});

test("a width is a whole number between its limits, whatever was stored", () => {
  for (const stored of [-5, 0, 279.6, 333.3, 1e9]) {
    const width = fittingWidth(stored);
    expect(Number.isInteger(width)).toBe(true);
    expect(width).toBeGreaterThanOrEqual(INSPECTOR_WIDTH.least);
    expect(width).toBeLessThanOrEqual(INSPECTOR_WIDTH.most);
  }
  expect(fittingWidth(Number("no number"))).toBe(INSPECTOR_WIDTH.usual);
});
