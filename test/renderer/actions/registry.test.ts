/** Who carries out what. */
import { describe, expect, it, vi } from "vitest";
import { createActionRegistry } from "../../../renderer/actions/registry.ts";

const handler = (run: () => void, more = {}) => ({
  run,
  unable: null as string | null,
  isOn: false,
  label: null,
  ...more,
});

describe("the registry", () => {
  it("runs the handler that was laid last, and the one below once that is gone", () => {
    const registry = createActionRegistry();
    const ran: string[] = [];
    registry.register(
      "edit.delete",
      handler(() => ran.push("shell")),
    );
    const remove = registry.register(
      "edit.delete",
      handler(() => ran.push("view")),
    );
    registry.run("edit.delete");
    remove();
    registry.run("edit.delete");
    expect(ran).toEqual(["view", "shell"]);
  });
  it("does not run what is not enabled, and says so", () => {
    const registry = createActionRegistry();
    const run = vi.fn<() => void>();
    registry.register("edit.undo", handler(run, { unable: "There is nothing to undo." }));
    expect(registry.run("edit.undo")).toBe(false);
    expect(registry.reasonOf("edit.undo")).toBe("There is nothing to undo.");
    expect(registry.run("edit.redo")).toBe(false);
    expect(run).not.toHaveBeenCalled();
  });
  it("tells once of a burst, and not of nothing", async () => {
    const registry = createActionRegistry();
    const told = vi.fn<() => void>();
    registry.subscribe(told);
    const remove = registry.register(
      "edit.undo",
      handler(() => undefined, { label: "Undo Move Wagon 1" }),
    );
    registry.register(
      "edit.redo",
      handler(() => undefined),
    );
    await Promise.resolve();
    expect(told).toHaveBeenCalledTimes(1);
    expect(registry.states().find((state) => state.id === "edit.undo")).toEqual({
      id: "edit.undo",
      isEnabled: true,
      isOn: false,
      label: "Undo Move Wagon 1",
    });
    remove();
    registry.register(
      "edit.undo",
      handler(() => undefined, { label: "Undo Move Wagon 1" }),
    );
    await Promise.resolve();
    expect(told).toHaveBeenCalledTimes(1);
  });
});
