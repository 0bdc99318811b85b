/** Starts the built browser host and a Chromium that opens the address it prints. */
import { type ChildProcess, spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type Browser, chromium } from "@playwright/test";
import { type ActionId, actions } from "../../../app/contract/actions.ts";
import { findChromium } from "../equipment/chromium.ts";
import { root } from "../equipment/project.ts";
import type { Planner, Start } from "./planner.ts";

const START_MS = 20_000;
/** What a small screen shows at least. */
const FIRST_SIZE = { width: 1280, height: 800 };

export interface RunningHost {
  readonly address: string;
  stop(): Promise<void>;
}

const addressFrom = (host: ChildProcess): Promise<string> =>
  new Promise((resolve, reject) => {
    let said = "";
    const timer = setTimeout(() => reject(new Error(`the browser host did not start: ${said}`)), START_MS);
    const hear = (chunk: Buffer): void => {
      said += chunk.toString();
      const address = /Coldstock is at (\S+)/.exec(said)?.[1];
      if (address === undefined) return;
      clearTimeout(timer);
      resolve(address);
    };
    host.stdout?.on("data", hear);
    host.stderr?.on("data", hear);
    host.on("exit", (status) => reject(new Error(`the browser host ended with ${status}: ${said}`)));
  });

/** The host alone. */
export const startHost = async ({ home, ledger }: Start): Promise<RunningHost> => {
  const args = [join(root, "out/main/browser.js"), "--print", ...(ledger === undefined ? [] : [ledger])];
  const host = spawn(process.execPath, args, { env: { ...process.env, COLDSTOCK_HOME: home } });
  const address = await addressFrom(host);
  return {
    address,
    stop: () =>
      new Promise((resolve) => {
        host.on("exit", () => resolve());
        host.kill("SIGTERM");
      }),
  };
};

export const launchChromium = async (): Promise<Browser> => chromium.launch(await findChromium());

const labelOf = (id: ActionId): { menu: string; index: number } => {
  const action = actions.find((candidate) => candidate.id === id);
  if (action === undefined) throw new Error(`no action ${id}`);
  const offered = actions.filter((candidate) => candidate.menu === action.menu && candidate.by === "page");
  return { menu: action.menu, index: offered.findIndex((candidate) => candidate.id === id) };
};

export const startInBrowser = async (browser: Browser, start: Start): Promise<Planner> => {
  const host = await startHost(start);
  const context = await browser.newContext({ viewport: FIRST_SIZE, acceptDownloads: true, locale: "en-GB" });
  // The page itself may write when a person asks for it; reading is for the test.
  await context.grantPermissions(["clipboard-read", "clipboard-write"]);
  const page = await context.newPage();
  await page.goto(host.address);
  await page.getByRole("heading", { level: 1 }).waitFor();

  const giveFile = async (path: string, ask: () => Promise<void>): Promise<void> => {
    const asked = page.waitForEvent("filechooser");
    await ask();
    await (await asked).setFiles(path);
  };
  const savedBytes = async (ask: () => Promise<void>): Promise<Buffer> => {
    const download = page.waitForEvent("download");
    await ask();
    return readFileSync(await (await download).path());
  };
  return {
    host: "browser",
    page,
    choose: async (id) => {
      const { menu, index } = labelOf(id);
      await page.getByRole("toolbar", { name: "Menus" }).getByRole("button", { name: menu, exact: true }).click();
      await page.getByRole("menu", { name: menu }).locator("[role^=menuitem]").nth(index).click();
    },
    giveFile,
    giveFileAndPlace: (path, _place, ask) => giveFile(path, ask),
    givePlace: (_place, ask) => ask(),
    savedText: async (ask) => (await savedBytes(ask)).toString("utf8"),
    savedBytes,
    printed: async (ask) => {
      // The browser's own dialog cannot be driven; what it would print is what its print style sheet shows.
      await page.evaluate(() => {
        const reached = Promise.withResolvers<void>();
        Object.assign(window, { printReached: reached.promise, print: () => reached.resolve() });
      });
      await ask();
      await page.evaluate(() => (window as unknown as { printReached: Promise<void> }).printReached);
      return await page.pdf({ preferCSSPageSize: true, printBackground: true });
    },
    paste: async (text) => {
      if (text !== undefined) await page.evaluate((words) => navigator.clipboard.writeText(words), text);
      await page.keyboard.press("Control+v");
    },
    copiedText: () => page.evaluate(() => navigator.clipboard.readText()),
    copiedPicture: () =>
      page.evaluate(async () => {
        const [item] = await navigator.clipboard.read();
        if (item?.types.includes("image/png") !== true) return null;
        const { width, height } = await createImageBitmap(await item.getType("image/png"));
        return { width, height };
      }),
    resize: (width, height) => page.setViewportSize({ width, height }),
    // What a browser's 200 % leaves of the page.
    enlarge: () => page.setViewportSize({ width: 640, height: 400 }),
    close: async () => {
      await context.close();
      await host.stop();
    },
  };
};
