/** Electron's security checklist, tried from inside the real window. */
import { expect, test } from "@playwright/test";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { hostInputs } from "../../../app/contract/host-input.ts";
import { openScreen, type Screen } from "../equipment/screen.ts";
import { dragFiles } from "../harness/drag-file.ts";
import { type DesktopPlanner, startOnDesktop } from "../harness/desktop-start.ts";

const PAGE = "app://coldstock/";
let planner: DesktopPlanner;
let screen: Screen;
let home = "";

test.beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), "coldstock-locked-"));
  screen = await openScreen();
  planner = await startOnDesktop({ home }, screen.display);
  await planner.page.waitForLoadState("load");
});
test.afterAll(async () => {
  await planner.close();
  screen.close();
  rmSync(home, { recursive: true, force: true });
});
test.afterEach(() => expect(planner.page.url()).toBe(PAGE));

/** The preferences with which the window really runs. */
const preferences = (): Promise<Record<string, unknown>> =>
  planner.app.evaluate(({ BrowserWindow }) => {
    const contents = BrowserWindow.getAllWindows()[0]?.webContents as unknown as {
      getLastWebPreferences(): Record<string, unknown>;
    };
    return contents.getLastWebPreferences();
  });

test("item 2, item 3, item 4, item 6, item 8, item 9, item 11: the window runs with the locks on", async () => {
  expect(await preferences()).toMatchObject({
    nodeIntegration: false,
    nodeIntegrationInSubFrames: false,
    contextIsolation: true,
    sandbox: true,
    webviewTag: false,
    webSecurity: true,
    allowRunningInsecureContent: false,
    experimentalFeatures: false,
  });
});

test("item 2: the page has no Node and no Electron", async () => {
  const found = await planner.page.evaluate(() =>
    ["require", "process", "module", "global", "Buffer", "ipcRenderer", "electron"].filter(
      (name) => name in globalThis,
    ),
  );
  expect(found).toEqual([]);
});

test("item 3: what the page changes of its own built-ins does not reach the bridge", async () => {
  const kind = await planner.page.evaluate(() => {
    Reflect.set(Function.prototype, "call", () => "caught");
    const bridge = Reflect.get(globalThis, "coldstock") as { host: { kind: string } };
    Reflect.set(bridge.host, "kind", "spoiled");
    return bridge.host.kind;
  });
  expect(kind).toBe("desktop");
  await planner.page.reload();
});

test("item 20: the bridge has three parts and cannot be changed", async () => {
  const bridge = await planner.page.evaluate(() => {
    const { coldstock } = globalThis as unknown as { coldstock: Record<string, object> };
    return {
      keys: Object.keys(coldstock),
      host: Object.keys(coldstock["host"] ?? {}),
      isFrozen: Object.isFrozen(coldstock),
    };
  });
  expect(bridge.keys.toSorted()).toEqual(["call", "host", "on"]);
  expect(bridge.host.toSorted()).toEqual([...Object.keys(hostInputs), "kind", "platform"].toSorted());
  expect(bridge.isFrozen).toBe(true);
});

test("item 1: the page reaches nothing outside", async () => {
  for (const address of ["https://example.org/", "http://127.0.0.1:9/", "file:///etc/hostname", "app://other/"]) {
    const answer = await planner.page.evaluate(
      (url) =>
        fetch(url).then(
          () => "reached",
          () => "refused",
        ),
      address,
    );
    expect(answer, address).toBe("refused");
  }
});

test("item 5: permissions are refused", async () => {
  const answers = await planner.page.evaluate(async () => [
    (await navigator.permissions.query({ name: "geolocation" })).state,
    await new Promise((resolve) =>
      navigator.geolocation.getCurrentPosition(
        () => resolve("granted"),
        () => resolve("refused"),
      ),
    ),
    await Notification.requestPermission(),
  ]);
  expect(answers).toEqual(["denied", "refused", "denied"]);
});

test("item 7: script, evaluation and HTML from text are refused by the policy", async () => {
  const results = await planner.page.evaluate(async () => {
    const tried = (work: () => unknown): string => {
      try {
        work();
        return "allowed";
      } catch {
        return "refused";
      }
    };
    const script = document.createElement("script");
    const inline = tried(() => {
      script.textContent = "globalThis.inlineRan = true";
      document.head.append(script);
    });
    const image = document.createElement("img");
    const outside = await new Promise((resolve) => {
      image.addEventListener("error", () => resolve("refused"));
      image.addEventListener("load", () => resolve("allowed"));
      image.src = "https://example.org/x.png";
    });
    return {
      inlineRan: "inlineRan" in globalThis,
      inline: inline === "refused" || !("inlineRan" in globalThis),
      outside,
      html: tried(() => document.body.insertAdjacentHTML("beforeend", "<b>text</b>")),
    };
  });
  expect(results).toEqual({ inlineRan: false, inline: true, outside: "refused", html: "refused" });
});

test("item 13: the window goes nowhere else", async () => {
  for (const address of [
    "https://example.org/",
    "https://example.org/?next=app://coldstock/",
    "app://coldstock.example.org/",
    "file:///etc/hostname",
    "data:text/html,elsewhere",
  ]) {
    await planner.page.evaluate((url) => {
      const link = document.createElement("a");
      link.href = url;
      document.body.append(link);
      link.click();
      link.remove();
    }, address);
    await planner.page.waitForTimeout(150);
    expect(planner.page.url(), address).toBe(PAGE);
  }
});

test("item 13: a file dropped where nothing takes it does not take the window away", async () => {
  const page = join(home, "elsewhere.html");
  writeFileSync(page, "<title>elsewhere</title>");
  // As if the page had no place for files: what is left is the host's own lock.
  await planner.page.evaluate(() => {
    for (const name of ["dragenter", "dragover", "drop"])
      window.addEventListener(name, (event) => event.stopImmediatePropagation(), { capture: true });
  });
  await (await dragFiles(planner.page, [page])).drop();
  await planner.page.waitForTimeout(300);
  expect(planner.page.url()).toBe(PAGE);
  expect(await planner.page.title()).not.toBe("elsewhere");
  await planner.page.reload();
});

test("item 14: no second window opens", async () => {
  const opened = await planner.page.evaluate(() => [
    window.open("https://example.org/"),
    window.open("app://coldstock/", "_blank"),
    window.open("about:blank"),
  ]);
  expect(opened).toEqual([null, null, null]);
  expect(await planner.app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows().length)).toBe(1);
});

test("item 12: an embedded view is an unknown element", async () => {
  const isPlain = await planner.page.evaluate(() => {
    const view = document.createElement("webview");
    view.setAttribute("src", "https://example.org/");
    document.body.append(view);
    const has = "getURL" in view;
    view.remove();
    return !has;
  });
  expect(isPlain).toBe(true);
  expect(await planner.app.evaluate(({ webContents }) => webContents.getAllWebContents().length)).toBe(1);
});

test("item 18: the page's own protocol has only the built files", async () => {
  const answers = await planner.page.evaluate(() =>
    Promise.all(
      ["/package.json", "/%2e%2e/package.json", "/..%2f..%2fpackage.json", "/assets/"].map((path) =>
        fetch(path).then((response) => response.status),
      ),
    ),
  );
  expect(answers).toEqual([404, 404, 404, 404]);
});

test("item 20: a path from the page is refused", async () => {
  const reply = await planner.page.evaluate(() => {
    const { coldstock } = globalThis as unknown as {
      coldstock: { call(name: string, input: object): Promise<unknown> };
    };
    return coldstock.call("ledger.open", { path: "/etc/passwd" });
  });
  expect(reply).toMatchObject({ ok: false, failure: { code: "forbidden" } });
});
