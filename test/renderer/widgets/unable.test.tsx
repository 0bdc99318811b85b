/** What cannot be pressed says why, to the eye, the keyboard and a screen reader; and no control of the page is without. */
import "../with-dom.ts";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { cleanup, render, screen } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, expect, test, vi } from "vitest";
import { actions } from "../../../app/contract/actions.ts";
import { createActionRegistry } from "../../../renderer/actions/registry.ts";
import { Button } from "../../../renderer/widgets/button.tsx";
import { Dialog } from "../../../renderer/widgets/dialog.tsx";
import { MenuButton } from "../../../renderer/widgets/menu-button.tsx";
import { firstOf } from "../../../renderer/widgets/unable.ts";

afterEach(cleanup);

test("a button that cannot be pressed is reached by Tab, describes why, and does nothing", async () => {
  const user = userEvent.setup();
  const press = vi.fn<() => void>();
  render(
    <Button unable="There is nothing to undo." onPress={press}>
      Undo
    </Button>,
  );
  await user.tab();
  const button = screen.getByRole("button", { name: "Undo", description: "There is nothing to undo." });
  expect(document.activeElement).toBe(button);
  await user.keyboard("{Enter} ");
  await user.click(button);
  expect(press).not.toHaveBeenCalled();
});

test("it keeps the focus when it can be pressed again", async () => {
  const user = userEvent.setup();
  const press = vi.fn<() => void>();
  const shown = render(
    <Button unable="Not yet." onPress={press}>
      Go
    </Button>,
  );
  await user.tab();
  shown.rerender(<Button onPress={press}>Go</Button>);
  await user.keyboard("{Enter}");
  expect(press).toHaveBeenCalledTimes(1);
});

test("a dialog whose button cannot be pressed is not confirmed by Enter either", async () => {
  const user = userEvent.setup();
  const confirm = vi.fn<() => boolean>();
  render(
    <Dialog title="Question" confirm="Do it" unable="A field is empty." onConfirm={confirm} onClose={() => undefined}>
      <input aria-label="Field" />
    </Dialog>,
  );
  await user.type(screen.getByRole("textbox", { name: "Field" }), "text{Enter}");
  await user.click(screen.getByRole("button", { name: "Do it", description: "A field is empty." }));
  expect(confirm).not.toHaveBeenCalled();
});

test("a menu that cannot be opened stays shut; an entry that cannot be chosen says why", async () => {
  const user = userEvent.setup();
  render(
    <>
      <MenuButton label="Shut" unable="Nothing to choose." choices={[]} />
      <MenuButton label="Open" choices={[{ id: "a", label: "First", unable: "It is gone.", run: () => undefined }]} />
    </>,
  );
  await user.click(screen.getByRole("button", { name: "Shut", description: "Nothing to choose." }));
  expect(screen.queryByRole("menu")).toBeNull();
  await user.click(screen.getByRole("button", { name: "Open" }));
  expect(screen.getByRole("menuitem", { name: /First.*It is gone\./ })).toBeDefined();
});

test("of several reasons the first that holds is said", () => {
  expect(firstOf([false, "one"], [true, "two"], [true, "three"])).toBe("two");
  expect(firstOf([false, "one"])).toBeNull();
});

test("every action says why it cannot be done while nothing on screen does it", () => {
  const registry = createActionRegistry();
  const mute = actions.filter(({ id, by }) => by === "page" && !/^[A-Z].+\.$/.test(registry.reasonOf(id) ?? ""));
  expect(mute).toEqual([]);
});

/** Where a control is disabled by other means than a reason; each gives one as its title, or is no control. */
const others: Readonly<Record<string, RegExp>> = {
  "widgets/choice-field.tsx": /title=\{props\.isReadOnly === true \? FIXED/,
  "widgets/check-field.tsx": /title=\{isReadOnly \? READ_ONLY/,
  "what-if/what-if-part.tsx": /disabled=\{unable !== null\}\s+title=\{unable/,
  // Dragging steps by hand, which the buttons beside do too.
  "craft/profile/step-list.tsx": /useDragAndDrop\(\{\s+isDisabled: isReadOnly/,
};

test("no control of the page is disabled without a reason", () => {
  const folder = join(import.meta.dirname, "../../../renderer");
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".tsx"));
  expect(files.length).toBeGreaterThan(150);
  const without = files.filter((name) => {
    const text = readFileSync(join(folder, name), "utf8").replace(/^ *(\/\*\*|\/\/|\*).*$/gm, "");
    const places = text.match(/(?<![-\w"])(isDisabled|disabled)\s*[=:]/g) ?? [];
    if (places.length === 0) return false;
    const excused = others[name.replaceAll("\\", "/")];
    return excused === undefined || !excused.test(text) || places.length > 1;
  });
  expect(without).toEqual([]);
});
