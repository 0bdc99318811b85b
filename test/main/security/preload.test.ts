/** Electron's security checklist: what the preload script puts into the page. */
import { expect, it, vi } from "vitest";
import { hostInputs } from "../../../app/contract/host-input.ts";

const exposed = vi.hoisted(() => new Map<string, unknown>());
const invoked = vi.hoisted((): unknown[][] => []);
const heard = vi.hoisted(() => new Map<string, (...given: unknown[]) => void>());

vi.mock("electron", () => ({
  contextBridge: { exposeInMainWorld: (name: string, value: unknown) => exposed.set(name, value) },
  ipcRenderer: {
    on: (name: string, listener: (...given: unknown[]) => void) => heard.set(name, listener),
    invoke: async (...given: unknown[]) => {
      invoked.push(given);
      return await Promise.resolve({ ok: true, value: null });
    },
  },
  webUtils: { getPathForFile: (file: { readonly name: string }) => `/where/it/is/${file.name}` },
}));

await import("../../../main/desktop/preload.ts");
const bridge = exposed.get("coldstock") as Record<string, unknown>;
const host = bridge["host"] as Record<string, unknown>;

it("item 20: exposes one object, with three parts", () => {
  expect([...exposed.keys()]).toEqual(["coldstock"]);
  expect(Object.keys(bridge).toSorted()).toEqual(["call", "host", "on"]);
});

it("item 20: the host's part has the methods of the contract, and two plain words", () => {
  expect(Object.keys(host).toSorted()).toEqual([...Object.keys(hostInputs), "kind", "platform"].toSorted());
});

it("item 20: an event reaches the page without Electron's event object", () => {
  const listener = vi.fn<(payload: unknown) => void>();
  const on = bridge["on"] as (name: string, listener: (payload: unknown) => void) => () => void;
  const stop = on("changed", listener);
  heard.get("event")!({ sender: "electron's own" }, "changed", { revision: 3 });
  expect(listener.mock.calls).toEqual([[{ revision: 3 }]]);
  stop();
  heard.get("event")!({}, "changed", { revision: 4 });
  expect(listener).toHaveBeenCalledTimes(1);
});

it("item 20: a dropped file's path goes to the host alone; the page hands over the file and gets what the host answers", async () => {
  const hold = host["holdDropped"] as (file: object) => Promise<unknown>;
  expect(await hold({ name: "north.coldstock" })).toEqual({ ok: true, value: null });
  expect(invoked.at(-1)).toEqual(["host", "holdDropped", ["/where/it/is/north.coldstock"]]);
});
