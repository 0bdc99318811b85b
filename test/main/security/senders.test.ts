/** Electron's security checklist: whose messages are heard, and what the page is given to speak with. */
import type { BrowserWindow, IpcMain } from "electron";
import { describe, expect, it, vi } from "vitest";
import { hostOperations } from "../../../app/contract/contract.ts";
import { isFromPage, listenToPage } from "../../../main/desktop/page-channel.ts";

const mainFrame = { url: "app://coldstock/" };
const windowOf = (isDestroyed = false) =>
  ({ isDestroyed: () => isDestroyed, webContents: { mainFrame } }) as unknown as BrowserWindow;

const foreign = {
  "a frame that is gone": null,
  "a frame within the page": { url: "app://coldstock/" },
  "another page": { url: "https://example.org/" },
};

describe("the page's channel", () => {
  it("item 17: hears the page's own main frame", () =>
    expect(isFromPage({ senderFrame: mainFrame }, windowOf())).toBe(true));

  it.each(Object.entries(foreign))("item 17: does not hear %s", (_name, senderFrame) =>
    expect(isFromPage({ senderFrame }, windowOf())).toBe(false),
  );

  it("item 17: hears nobody once the window is gone", () => {
    expect(isFromPage({ senderFrame: mainFrame }, windowOf(true))).toBe(false);
    expect(isFromPage({ senderFrame: mainFrame }, null)).toBe(false);
  });

  it("item 17: does not hear the main frame after it went elsewhere", () => {
    const gone = { url: "https://example.org/" };
    const window = { isDestroyed: () => false, webContents: { mainFrame: gone } } as unknown as BrowserWindow;
    expect(isFromPage({ senderFrame: gone }, window)).toBe(false);
  });

  const handlers = new Map<string, (event: unknown, ...given: unknown[]) => unknown>();
  const ipc = { handle: (name: string, handler: never) => handlers.set(name, handler) } as unknown as IpcMain;
  const channel = { call: vi.fn<() => Promise<void>>(), host: vi.fn<() => Promise<void>>() };
  listenToPage(ipc, () => windowOf(), channel as never);

  it("item 17: answers strangers with a refusal and does nothing for them", async () => {
    for (const name of handlers.keys())
      expect(
        await handlers.get(name)!({ senderFrame: foreign["another page"] }, "ledger.info", {}, null),
      ).toMatchObject({
        ok: false,
        failure: { code: "forbidden" },
      });
    expect(channel.call).not.toHaveBeenCalled();
    expect(channel.host).not.toHaveBeenCalled();
  });

  it("item 20: does not take a path from the page, not even from our own", async () => {
    expect(hostOperations.length).toBeGreaterThan(0);
    for (const name of hostOperations)
      expect(
        await handlers.get("call")!({ senderFrame: mainFrame }, name, { path: "/etc/passwd" }, null),
      ).toMatchObject({
        failure: { code: "forbidden" },
      });
    expect(channel.call).not.toHaveBeenCalled();
  });

  it("item 20: offers two questions and nothing more", () =>
    expect([...handlers.keys()].toSorted()).toEqual(["call", "host"]));
});
