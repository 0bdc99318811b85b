/** The desktop program: one window over the service's process. */
import { join } from "node:path";
import { app, type BrowserWindow, dialog, ipcMain, nativeTheme, protocol, session } from "electron";
import { CAUTION } from "../../app/words/caution.ts";
import { logTo } from "../log-file.ts";
import { builtFiles } from "../page/built-files.ts";
import { openDemonstration } from "../page/demonstration.ts";
import { answerHostMethod } from "../page/door.ts";
import { makeLedgerTokens } from "../page/ledger-tokens.ts";
import type { Child } from "../service/link/child.ts";
import { systemEnvironment } from "../service/environment.ts";
import { linkService } from "../service/link/service-link.ts";
import { commandWords, runCommand } from "./command-line.ts";
import { withRecent } from "./desktop-state.ts";
import { fileArgument } from "./file-argument.ts";
import { openFirstLedger } from "./first-ledger.ts";
import { desktopMethods } from "./host-methods.ts";
import { lockAllContents, lockSession } from "./lock-down.ts";
import { menuBar } from "./menu-bar.ts";
import { listenToPage } from "./page-channel.ts";
import { pageEvents } from "./page-events.ts";
import { SCHEME } from "./page-address.ts";
import { answerPage } from "./page-protocol.ts";
import { remembered } from "./remembered.ts";
import { namedNode } from "./service-node.ts";
import { serviceStarter } from "./service-start.ts";
import { openWindow, windowPlace } from "./window.ts";

// Everything up to "ready" must come first: none of it can be set later.
const home = process.env["COLDSTOCK_HOME"];
if (home !== undefined && home !== "") app.setPath("userData", home);
// Only a person who starts the program with Electron's own switch (a test, as root) can take the sandbox away.
if (!app.commandLine.hasSwitch("no-sandbox")) app.enableSandbox();
protocol.registerSchemesAsPrivileged([
  { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
]);
lockAllContents(app);

const log = logTo(join(app.getPath("userData"), "coldstock.log"));
const environment = systemEnvironment(log);
let window: BrowserWindow | null = null;
/** A file that macOS or a second start asked for before the window was there. */
let asked: string | null = fileArgument(process.argv, process.cwd());
let openAsked: ((path: string) => void) | null = null;

const openFromOutside = (path: string | null): void => {
  if (window?.isMinimized() === true) window.restore();
  window?.focus();
  if (path === null) return;
  if (openAsked === null) asked = path;
  else openAsked(path);
};

const run = async (startService: () => Child): Promise<void> => {
  const page = builtFiles(join(import.meta.dirname, "..", "renderer"));
  lockSession(session.defaultSession);
  protocol.handle(SCHEME, answerPage(page));

  const memory = remembered(join(app.getPath("userData"), "desktop.json"), log);
  nativeTheme.themeSource = memory.state().theme;
  const events = pageEvents(() => window);
  const demonstrationFolder = join(app.getPath("userData"), "demonstration");

  const link = linkService(
    startService,
    {
      onEvent: ({ event, payload }) => {
        if (event === "changed") remember(payload.path);
        events.tell(event, payload);
      },
      onNotice: (words, isOver) => {
        log(words);
        if (isOver) dialog.showErrorBox("Coldstock", words);
        else events.tell("notice", { tone: "warning", words });
      },
    },
    () => Date.now(),
  );
  const open = async (path: string): Promise<void> => {
    const reply = await link.call("ledger.open", { path });
    if (!reply.ok)
      events.tell("notice", { tone: "warning", words: `${path} was not opened. ${reply.failure.message}` });
  };
  const menu = menuBar(
    (id) => events.tell("action", { id }),
    (path) => void open(path),
  );
  const remember = (path: string): void => {
    if (memory.state().recent[0]?.path === path) return;
    memory.change(withRecent(memory.state(), path, environment.now()));
    app.addRecentDocument(path);
    menu.showRecent(memory.state().recent.map((ledger) => ledger.path));
  };

  const methods = desktopMethods({
    tokens: makeLedgerTokens(),
    documentsFolder: app.getPath("documents"),
    demonstrationFolder,
    window: () => {
      if (window === null) throw new Error("The window is gone.");
      return window;
    },
    state: () => memory.state(),
    call: link.call,
    showActions: menu.showActions,
    showTheme: (theme) => {
      nativeTheme.themeSource = theme;
      memory.change({ ...memory.state(), theme });
    },
  });
  listenToPage(ipcMain, () => window, {
    call: (name, input, jobId) => {
      events.begin();
      return link.call(name, input, jobId);
    },
    host: (method, input) => answerHostMethod(methods, method, input, environment),
  });

  // Asked before the window is made, so that the page's first question finds a ledger open.
  void openFirstLedger({
    given: asked,
    recent: memory.state().recent.map((ledger) => ledger.path),
    open: (path) => link.call("ledger.open", { path }),
    demonstration: () => openDemonstration("tarn", demonstrationFolder, link.call),
    warn: (words) => events.tell("notice", { tone: "warning", words }),
  });
  openAsked = (path) => void open(path);
  menu.showRecent(memory.state().recent.map((ledger) => ledger.path));

  window = openWindow(memory.state().window, join(import.meta.dirname, "..", "preload", "preload.cjs"));
  const place = (): void => {
    if (window !== null && !window.isDestroyed()) memory.change({ ...memory.state(), window: windowPlace(window) });
  };
  window.on("resize", place);
  window.on("move", place);
  window.on("close", place);
  window.on("closed", () => (window = null));
  window.webContents.on("did-start-navigation", ({ isMainFrame, isSameDocument }) => {
    if (isMainFrame && !isSameDocument) events.pause();
  });
  window.webContents.on("render-process-gone", (_event, details) => {
    log(`The page's process is gone: ${details.reason}`);
    if (details.reason !== "clean-exit") window?.reload();
  });

  let isClosed = false;
  app.on("before-quit", (event) => {
    memory.flush();
    if (isClosed) return;
    event.preventDefault();
    void link.close().then(() => {
      isClosed = true;
      app.quit();
    });
  });
};

process.on("uncaughtException", (error) => {
  const logId = environment.logDefect("the desktop's main process", error);
  dialog.showErrorBox("Coldstock", `Something went wrong inside the program. The log has the details under ${logId}.`);
});

const words = commandWords(process.argv, app.isPackaged);
// Waited for here, before Electron looks for a screen.
const node = namedNode(app);
if (words !== null) process.exit(await runCommand(join(import.meta.dirname, "cli.js"), node, words));

if (app.requestSingleInstanceLock()) {
  const startService = serviceStarter(join(import.meta.dirname, "service.js"), node, log);
  app.setAboutPanelOptions({ applicationName: "Coldstock", credits: CAUTION });
  app.on("second-instance", (_event, argv, folder) => openFromOutside(fileArgument(argv, folder)));
  app.on("open-file", (event, path) => {
    event.preventDefault();
    openFromOutside(path);
  });
  app.on("window-all-closed", () => app.quit());
  app
    .whenReady()
    .then(() => run(startService))
    .catch((error: unknown) => {
      const logId = environment.logDefect("the start", error);
      dialog.showErrorBox("Coldstock", `Coldstock cannot start. The log has the details under ${logId}.`);
      app.exit(1);
    });
} else {
  app.quit();
}
