/** What the desktop remembers, what it opens first, and what it makes of its arguments. */
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { Reply } from "../../../app/ground/failure.ts";
import {
  type DesktopState,
  FIRST_STATE,
  isOnScreen,
  readState,
  withRecent,
  writeState,
} from "../../../main/desktop/desktop-state.ts";
import { fileArgument } from "../../../main/desktop/file-argument.ts";
import { openFirstLedger } from "../../../main/desktop/first-ledger.ts";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-memory-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe("the state", () => {
  const state: DesktopState = {
    window: { x: 10, y: -20, width: 1200, height: 800, isMaximized: true },
    theme: "dark",
    recent: [{ path: "/a.coldstock", openedAt: 1 }],
  };

  it("comes back as it was, and leaves no other file", () => {
    const path = join(folder, "sub", "desktop.json");
    writeState(path, state);
    expect(readState(path)).toEqual(state);
    expect(readdirSync(join(folder, "sub"))).toEqual(["desktop.json"]);
  });

  it.each([
    ["", "empty"],
    ["{", "cut off"],
    ["null", "null"],
    ['{"window":{}}', "parts"],
    [JSON.stringify({ ...state, window: { ...state.window, width: 1e9 } }), "absurd"],
    [JSON.stringify({ ...state, theme: "pink" }), "unknown"],
    [JSON.stringify({ ...state, surplus: 1 }), "surplus"],
  ])("is the first one where the file is %j (%s)", (text) => {
    const path = join(folder, "desktop.json");
    writeFileSync(path, text);
    expect(readState(path)).toEqual(FIRST_STATE);
  });

  it("is the first one where there is no file", () => expect(readState(join(folder, "none"))).toEqual(FIRST_STATE));

  it("keeps ten ledgers, the latest first, none twice", () => {
    let now = FIRST_STATE;
    for (let i = 0; i < 14; i += 1) now = withRecent(now, `/${i % 12}`, i);
    expect(now.recent.map(({ path }) => path)).toEqual(["/1", "/0", "/11", "/10", "/9", "/8", "/7", "/6", "/5", "/4"]);
    writeState(join(folder, "desktop.json"), now);
    expect(readState(join(folder, "desktop.json"))).toEqual(now);
  });
});

describe("the window's place", () => {
  const screens = [{ x: 0, y: 0, width: 1920, height: 1080 }];
  it("is kept where it can be seen", () =>
    expect(isOnScreen({ x: 1600, y: 900, width: 1200, height: 800 }, screens)).toBe(true));
  it("is not kept on a screen that is gone", () => {
    expect(isOnScreen({ x: 1920, y: 0, width: 1200, height: 800 }, screens)).toBe(false);
    expect(isOnScreen({ x: 0, y: -790, width: 1200, height: 800 }, screens)).toBe(false);
  });
});

describe("the argument", () => {
  beforeEach(() => {
    writeFileSync(join(folder, "a.db"), "");
    mkdirSync(join(folder, "project"));
  });
  it.each([
    [["app"], null],
    [["app", "."], null],
    [["app", "project"], null],
    [["app", "--flag", "--x=a.db"], null],
    [["app", "a.db"], "a.db"],
    [["app", ".", "--flag", "a.db"], "a.db"],
    [["app", "missing.coldstock"], "missing.coldstock"],
    [["app", "missing.db"], null],
    [["app", "a.db", "b.coldstock"], "b.coldstock"],
  ])("%j names %j", (argv, name) => expect(fileArgument(argv, folder)).toBe(name === null ? null : join(folder, name)));
});

describe("the first ledger", () => {
  const good: Reply<unknown> = { ok: true, value: null };
  const bad: Reply<unknown> = { ok: false, failure: { code: "storage", message: "It is gone.", field: null } };
  const start = async (
    given: string | null,
    recent: readonly string[],
    opens: Reply<unknown>,
    demonstrates: Reply<unknown> = good,
  ) => {
    const did: string[] = [];
    await openFirstLedger({
      given,
      recent,
      open: (path) => {
        did.push(path);
        return Promise.resolve(opens);
      },
      demonstration: () => {
        did.push("demonstration");
        return Promise.resolve(demonstrates);
      },
      warn: (words) => did.push(words),
    });
    return did;
  };
  it("is the one given", async () => expect(await start("/g", ["/r"], good)).toEqual(["/g"]));
  it("else the one open last", async () => expect(await start(null, ["/r", "/s"], good)).toEqual(["/r"]));
  it("else the demonstration", async () => expect(await start(null, [], good)).toEqual(["demonstration"]));
  it("says what could not be opened, and goes on", async () =>
    expect(await start(null, ["/r"], bad)).toEqual(["/r", "/r was not opened. It is gone.", "demonstration"]));
  it("says that not even the demonstration opens", async () =>
    expect(await start(null, [], bad, bad)).toEqual([
      "demonstration",
      "The demonstration ledger was not opened. It is gone.",
    ]));
});
