// @vitest-environment jsdom
/**
 * A drag from press to drop through the mounted timeline, on canvases that only count: React renders nothing and the base
 * is drawn once (the ghost) until the drop, which is one edit.
 */
import { act, cleanup, render } from "@testing-library/react";
import { Profiler, type ProfilerOnRenderCallback } from "react";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { createActionRegistry } from "../../../renderer/actions/registry.ts";
import { ActionsContext } from "../../../renderer/actions/use-actions.ts";
import { createClient } from "../../../renderer/state/client.ts";
import { type AppState, initialState } from "../../../renderer/state/app-state.ts";
import { createSession } from "../../../renderer/state/session.ts";
import { createStore } from "../../../renderer/state/store.ts";
import { SessionContext } from "../../../renderer/state/use-session.ts";
import { TimelineChart } from "../../../renderer/timeline/body/timeline-chart.tsx";
import { fakeBridge } from "../state/fake-bridge.ts";
import { day } from "./small-plan.ts";

const clears = new Map<string, number>();
let frames: (() => void)[] = [];

/** A 2d context that does nothing but count how often its canvas is cleared: once a drawing. */
const countingContext = (canvas: HTMLCanvasElement) =>
  new Proxy(
    {},
    {
      get: (_, name) => {
        if (name === "measureText") return (text: string) => ({ width: text.length * 6.5 });
        if (name === "clearRect")
          return () => void clears.set(canvas.className, (clears.get(canvas.className) ?? 0) + 1);
        return () => undefined;
      },
      set: () => true,
    },
  );

beforeEach(() => {
  frames = [];
  clears.clear();
  vi.stubGlobal("requestAnimationFrame", (run: () => void) => frames.push(run));
  vi.stubGlobal("cancelAnimationFrame", () => undefined);
  vi.stubGlobal("matchMedia", () => ({
    addEventListener: vi.fn<() => void>(),
    removeEventListener: vi.fn<() => void>(),
  }));
  vi.stubGlobal(
    "ResizeObserver",
    class {
      observe = vi.fn<() => void>();
      disconnect = vi.fn<() => void>();
    },
  );
  Object.defineProperty(document, "fonts", { value: { ready: new Promise(() => undefined) }, configurable: true });
  vi.spyOn(HTMLElement.prototype, "clientWidth", "get").mockReturnValue(1000);
  vi.spyOn(HTMLElement.prototype, "clientHeight", "get").mockReturnValue(600);
  vi.spyOn(HTMLCanvasElement.prototype, "getContext").mockImplementation(function (this: HTMLCanvasElement) {
    return countingContext(this) as unknown as null;
  });
  HTMLElement.prototype.setPointerCapture = vi.fn<() => void>();
});
afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

const mounted = async () => {
  const fake = fakeBridge();
  const store = createStore<AppState>(initialState);
  const session = createSession(createClient(fake.bridge), store);
  await session.refresh();
  const commits = vi.fn<ProfilerOnRenderCallback>();
  const { container } = render(
    <Profiler id="timeline" onRender={commits}>
      <SessionContext.Provider value={session}>
        <ActionsContext.Provider value={createActionRegistry()}>
          <TimelineChart depotId={null} axis={null} />
        </ActionsContext.Provider>
      </SessionContext.Provider>
    </Profiler>,
  );
  const body = container.querySelector<HTMLElement>(".timeline-body")!;
  const cell = container.querySelector<HTMLElement>("[aria-label^='Wagon 1,']")!;
  const x = Number.parseFloat(cell.style.left) + Number.parseFloat(cell.style.width) / 2;
  const y = Number.parseFloat(cell.style.top) + 4;
  const send = (type: string, clientX: number) =>
    body.dispatchEvent(new MouseEvent(type, { clientX, clientY: y, button: 0, bubbles: true }));
  const runFrames = () => {
    const due = frames;
    frames = [];
    for (const frame of due) frame();
  };
  return { fake, store, commits, send, x, runFrames };
};

const drawn = (canvas: "base" | "active"): number => clears.get(`canvas-${canvas}`) ?? 0;

it("a drag of sixty frames renders nothing and draws the base once", async () => {
  const { fake, commits, send, x, runFrames } = await mounted();
  expect(drawn("base")).toBeGreaterThan(0);
  send("pointerdown", x);
  commits.mockClear();
  clears.clear();
  const callsBefore = fake.calls.length;
  for (let step = 1; step <= 60; step++) {
    send("pointermove", x + 4 * step); // more than a day each
    runFrames();
  }
  expect(commits).not.toHaveBeenCalled();
  expect(drawn("base")).toBe(1);
  expect(drawn("active")).toBeGreaterThanOrEqual(60);
  expect(fake.calls.length).toBe(callsBefore);
});

it("the drop is one edit, moved by whole days", async () => {
  const { fake, store, send, x, runFrames } = await mounted();
  send("pointerdown", x);
  send("pointermove", x + 40);
  runFrames();
  await act(async () => {
    send("pointerup", x + 40);
    await vi.waitFor(() => expect(store.get().ledger!.undoLabel).toBe("Move Wagon 1"));
  });
  expect(fake.calls.filter((name) => name === "plan.edit")).toHaveLength(1);
  const { departAt } = store.get().current!.plan.flights[0]!;
  expect((departAt - day(10)) % 86_400_000).toBe(0);
  expect(departAt).toBeGreaterThan(day(15));
  expect(store.get().announcement).toMatch(/^Move Wagon 1\. /);
});

it("Escape puts it back: no edit, the base as it was", async () => {
  const { fake, store, send, x, runFrames } = await mounted();
  send("pointerdown", x);
  send("pointermove", x + 40);
  runFrames();
  clears.clear();
  window.dispatchEvent(new KeyboardEvent("keydown", { key: "Escape" }));
  send("pointerup", x + 40);
  expect(drawn("base")).toBe(1);
  expect(fake.calls).not.toContain("plan.edit");
  expect(store.get().current!.plan.flights[0]!.departAt).toBe(day(10));
});

it("a press without a move selects", async () => {
  const { fake, store, send, x } = await mounted();
  await act(async () => {
    send("pointerdown", x);
    send("pointerup", x);
  });
  expect(store.get().selection).toEqual({ kind: "flight", id: "flight-1" });
  expect(fake.calls).not.toContain("plan.edit");
});

it("what is new beside the same plan waits until the hand is empty; the drop is made all the same", async () => {
  const { store, commits, send, x, runFrames } = await mounted();
  send("pointerdown", x);
  send("pointermove", x + 40);
  runFrames();
  clears.clear();
  act(() => store.set({ massUnit: "kg" }));
  expect(commits).toHaveBeenCalled();
  expect(drawn("base")).toBe(0);
  await act(async () => {
    send("pointerup", x + 40);
    await vi.waitFor(() => expect(store.get().ledger!.undoLabel).toBe("Move Wagon 1"));
  });
  expect(store.get().current!.plan.flights[0]!.departAt).toBeGreaterThan(day(15));
});

it("what is new beside the same plan is painted when the thing is put back", async () => {
  const { store, send, x, runFrames } = await mounted();
  send("pointerdown", x);
  send("pointermove", x + 40);
  runFrames();
  act(() => store.set({ massUnit: "kg" }));
  clears.clear();
  window.dispatchEvent(new KeyboardEvent("keydown", { key: "Escape" }));
  await Promise.resolve();
  expect(drawn("base")).toBe(2);
});

it("another plan puts back what is held", async () => {
  const { fake, store, send, x, runFrames } = await mounted();
  send("pointerdown", x);
  send("pointermove", x + 40);
  runFrames();
  const current = store.get().current!;
  act(() => store.set({ current: { ...current, plan: { ...current.plan } } }));
  send("pointerup", x + 40);
  expect(fake.calls).not.toContain("plan.edit");
});
