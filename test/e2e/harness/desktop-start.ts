/** Starts the built desktop program in a real Electron, with its own home folder, on the screen given. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type ElectronApplication, _electron } from "@playwright/test";
import { findElectron } from "../equipment/electron.ts";
import type { Planner, Start } from "./planner.ts";
import { startedAnew } from "./started-anew.ts";

export interface DesktopPlanner extends Planner {
  readonly app: ElectronApplication;
}

/** The environment as text values alone, which is what a process takes. */
const environment = (more: Readonly<Record<string, string>>): Record<string, string> => {
  const present = Object.entries(process.env).filter((pair): pair is [string, string] => pair[1] !== undefined);
  return { ...Object.fromEntries(present), ...more };
};

/** Starts the program under the test driver; a start that hangs is ended by the driver and made anew. */
export const launchDesktop = async ({ home, ledger }: Start, display: string): Promise<ElectronApplication> => {
  const equipment = await findElectron();
  return await startedAnew((timeout) =>
    _electron.launch({
      executablePath: equipment.executablePath,
      args: [...equipment.args, ...(ledger === undefined ? [] : [ledger])],
      env: environment({ ...equipment.env, COLDSTOCK_HOME: home, ...(display === "" ? {} : { DISPLAY: display }) }),
      timeout,
    }),
  );
};

/** The native dialogs answer at once, as if the person had chosen: a file to open, a place to save. */
const answerDialogs = (app: ElectronApplication, open: string | null, save: string | null): Promise<void> =>
  app.evaluate(
    ({ dialog }, paths) => {
      dialog.showOpenDialog = async () => ({
        canceled: paths.open === null,
        filePaths: paths.open === null ? [] : [paths.open],
      });
      dialog.showSaveDialog = async () => ({ canceled: paths.save === null, filePath: paths.save ?? "" });
    },
    { open, save },
  );

const MAX_TRIES = 200;
const TRY_MS = 50;

export const startOnDesktop = async (start: Start, display: string): Promise<DesktopPlanner> => {
  const app = await launchDesktop(start, display);
  const page = await app.firstWindow();
  // What is chosen before the page listens is not heard.
  await page.getByRole("heading", { level: 1 }).waitFor();
  let saves = 0;
  const savedBytes = async (ask: () => Promise<void>): Promise<Buffer> => {
    const path = join(start.home, `saved-${++saves}`);
    await answerDialogs(app, null, path);
    await ask();
    for (let attempt = 0; attempt < MAX_TRIES; attempt++) {
      try {
        return readFileSync(path);
      } catch {
        await page.waitForTimeout(TRY_MS);
      }
    }
    throw new Error("nothing was saved");
  };
  return {
    host: "desktop",
    app,
    page,
    choose: async (id) => {
      // The menu follows the page a moment later: whoever looks for an entry waits for it.
      for (let attempt = 1; ; attempt++) {
        const isChosen = await app.evaluate(({ Menu }, wanted) => {
          const item = Menu.getApplicationMenu()?.getMenuItemById(wanted);
          if (item === null || item === undefined) throw new Error(`no menu item ${wanted}`);
          if (item.enabled) item.click();
          return item.enabled;
        }, id);
        if (isChosen) return;
        if (attempt === MAX_TRIES) throw new Error(`the menu item ${id} cannot be chosen now`);
        await page.waitForTimeout(TRY_MS);
      }
    },
    giveFile: async (path, ask) => {
      await answerDialogs(app, path, null);
      await ask();
    },
    giveFileAndPlace: async (path, place, ask) => {
      await answerDialogs(app, path, place);
      await ask();
    },
    givePlace: async (place, ask) => {
      await answerDialogs(app, null, place);
      await ask();
    },
    savedText: async (ask) => (await savedBytes(ask)).toString("utf8"),
    savedBytes,
    printed: async (ask) => {
      // The system's own dialog cannot be driven; what it would be given is what the window draws for paper.
      await app.evaluate(({ BrowserWindow }) => {
        const contents = BrowserWindow.getAllWindows()[0]?.webContents;
        if (contents === undefined) throw new Error("there is no window");
        const reached = Promise.withResolvers<string>();
        Object.assign(globalThis, { printReached: reached.promise });
        contents.print = async (_options, done) => {
          const bytes = await contents.printToPDF({ preferCSSPageSize: true, printBackground: true });
          reached.resolve(bytes.toString("base64"));
          done?.(true, "");
        };
      });
      await ask();
      const base64 = await app.evaluate(
        () => (globalThis as unknown as { printReached: Promise<string> }).printReached,
      );
      return Buffer.from(base64, "base64");
    },
    paste: async (text) => {
      // The driver's keys reach the page alone, as they do first; the paste itself is the menu's, which hears none of them.
      if (text !== undefined) await app.evaluate(({ clipboard }, words) => clipboard.writeText(words), text);
      await page.keyboard.down("Control");
      await page.keyboard.down("v");
      await app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]?.webContents.paste());
      await page.keyboard.up("v");
      await page.keyboard.up("Control");
    },
    copiedText: () => app.evaluate(({ clipboard }) => clipboard.readText()),
    copiedPicture: () =>
      app.evaluate(async ({ clipboard, nativeImage }) => {
        // Electron before its clipboard became that of the web: the test runtime.
        const older = clipboard as unknown as { readImage?: () => ReturnType<typeof nativeImage.createEmpty> };
        if (older.readImage !== undefined) {
          const picture = older.readImage();
          return picture.isEmpty() ? null : picture.getSize();
        }
        const [item] = await clipboard.read();
        if (item?.types.includes("image/png") !== true) return null;
        const bytes = Buffer.from(await ((await item.getType<string>("image/png")) as Blob).arrayBuffer());
        return nativeImage.createFromBuffer(bytes).getSize();
      }),
    resize: async (width, height) => {
      await app.evaluate(
        ({ BrowserWindow }, size) => BrowserWindow.getAllWindows()[0]?.setContentSize(size.width, size.height),
        { width, height },
      );
      await page.waitForFunction((size) => innerWidth === size.width && innerHeight === size.height, { width, height });
    },
    enlarge: async () => {
      await app.evaluate(({ BrowserWindow }) => {
        const [window] = BrowserWindow.getAllWindows();
        window?.setContentSize(1280, 800);
        window?.webContents.setZoomFactor(2);
      });
      await page.waitForFunction(() => innerWidth === 640 && innerHeight === 400);
    },
    close: () => app.close(),
  };
};
