/** Electron's security checklist, the items that lie in the window's options, the session and the contents. */
import type { App } from "electron";
import { describe, expect, it } from "vitest";
import { isOwnRequest, lockAllContents, lockSession, webPreferences } from "../../../main/desktop/lock-down.ts";
import { fakeContents, fakeSession } from "./fake-electron.ts";

const PAGE = "app://coldstock/";
/** Addresses that look like the page and are not. */
const lookAlikes = [
  "https://example.org/",
  "https://example.org/?next=app://coldstock/",
  "https://app.coldstock/",
  "app://coldstock.example.org/",
  "app://coldstock@example.org/",
  "app://user@coldstock/",
  "app://coldstock:81/",
  "app://coldstock/../../etc/passwd",
  "app://coldstock/other.html",
  "file:///etc/passwd",
  "javascript:alert(1)",
  "data:text/html,<p>no</p>",
  "about:blank",
  "",
];

describe("options of the window", () => {
  const options = webPreferences("/preload.cjs");
  it.each([
    ["item 2: no Node in the page", "nodeIntegration", false],
    ["item 2: no Node in the page's workers", "nodeIntegrationInWorker", false],
    ["item 2: no Node in frames", "nodeIntegrationInSubFrames", false],
    ["item 3: context isolation", "contextIsolation", true],
    ["item 4: sandbox", "sandbox", true],
    ["item 11: no embedded views", "webviewTag", false],
  ] as const)("%s is written out", (_item, name, value) => expect(options[name]).toBe(value));

  it.each([
    ["item 6", "webSecurity"],
    ["item 8", "allowRunningInsecureContent"],
    ["item 9", "experimentalFeatures"],
    ["item 10", "enableBlinkFeatures"],
  ] as const)("%s: %s is never set", (_item, name) => expect(options).not.toHaveProperty(name));
});

describe("the session", () => {
  const { session, handlers } = fakeSession();
  lockSession(session);
  const call = (name: string, ...given: unknown[]): unknown => handlers.get(name)!(...(given as never[]));

  it("item 5: refuses every permission that is asked for", () => {
    const answers: boolean[] = [];
    call("request", null, "media", (isGranted: boolean) => answers.push(isGranted));
    call("request", null, "clipboard-read", (isGranted: boolean) => answers.push(isGranted));
    expect(answers).toEqual([false, false]);
    expect(call("check", null, "geolocation")).toBe(false);
    expect(call("device", { deviceType: "usb" })).toBe(false);
  });

  it.each([
    "https://example.org/",
    "http://127.0.0.1:8080/",
    "ws://127.0.0.1/",
    "file:///etc/passwd",
    "ftp://example.org/",
    "app://other/",
    "app://coldstock.example.org/x.js",
    "not an address",
  ])("item 1: cancels a request to %s", (url) => {
    let isCancelled: boolean | undefined;
    call("before request", { url }, (answer: { cancel: boolean }) => (isCancelled = answer.cancel));
    expect(isCancelled).toBe(true);
    expect(isOwnRequest(url)).toBe(false);
  });

  it("item 1: lets the page's own files through", () => expect(isOwnRequest("app://coldstock/assets/x.js")).toBe(true));
});

describe("every web content", () => {
  const { contents, tell, openAnswer } = fakeContents();
  lockAllContents({
    on: (_name: string, listener: (event: unknown, made: unknown) => void) => listener({}, contents),
  } as unknown as App);

  it("item 12: never attaches an embedded view", () => expect(tell("will-attach-webview", PAGE)).toBe(true));

  it.each(lookAlikes)("item 13: does not navigate to %j", (url) => {
    for (const event of ["will-navigate", "will-redirect", "will-frame-navigate"]) expect(tell(event, url)).toBe(true);
  });

  it("item 13: may load itself again", () => expect(tell("will-navigate", PAGE)).toBe(false));

  it("item 14: opens no window", () => expect(openAnswer()).toEqual({ action: "deny" }));
});
