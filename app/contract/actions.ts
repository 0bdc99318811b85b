/**
 * The one list of actions: what the native menu shows, what the page's menus and keyboard run, what the help lists.
 * A pure table; the page says what each does (renderer/actions), the desktop draws the menu from it.
 */

export const menus = ["File", "Edit", "View", "Plan", "Record", "Help"] as const;
export type MenuName = (typeof menus)[number];

export interface Action {
  readonly id: string;
  readonly menu: MenuName;
  readonly label: string;
  /** Keys as Electron writes them, "CmdOrCtrl+Shift+Z"; null: by menu alone. The page listens for them in every host. */
  readonly accelerator: string | null;
  /** Other keys in the browser host, where a browser keeps those for itself and tells the page nothing; null: the same. */
  readonly browserAccelerator: string | null;
  /** page: the page carries it out, in every host. desktop: the window's own (a browser has its own way of doing it). */
  readonly by: "page" | "desktop";
  /** A line is drawn above it. */
  readonly startsGroup: boolean;
  /** How the native menu shows it: a plain item, one that is on or off, one of several of which one is on, or a submenu. */
  readonly form: "item" | "check" | "choice" | "submenu";
}

type More = Partial<Pick<Action, "accelerator" | "browserAccelerator" | "by" | "startsGroup" | "form">>;

const action = <I extends string>(id: I, menu: MenuName, label: string, more: More = {}) => ({
  id,
  menu,
  label,
  accelerator: null,
  browserAccelerator: null,
  by: "page" as const,
  startsGroup: false,
  form: "item" as const,
  ...more,
});

/** In the order in which the menus show them. A label ends in "…" where a question follows. */
export const actions = [
  action("file.new", "File", "New ledger…", { accelerator: "CmdOrCtrl+N", browserAccelerator: "Shift+F2" }),
  action("file.open", "File", "Open…", { accelerator: "CmdOrCtrl+O" }),
  action("file.recent", "File", "Open recent", { by: "desktop", form: "submenu" }),
  action("file.recentList", "File", "Recent ledgers…"),
  action("file.demo.tarn", "File", "Open demonstration: Tarn", { startsGroup: true }),
  action("file.demo.beck", "File", "Open demonstration: Beck"),
  action("file.import.json", "File", "Import ledger (JSON)…", { startsGroup: true }),
  action("file.import.rows", "File", "Import rows…", { accelerator: "CmdOrCtrl+I" }),
  action("file.merge", "File", "Merge another ledger’s records…", { accelerator: "CmdOrCtrl+Shift+M" }),
  action("file.saveCopy", "File", "Save a copy…"),
  action("file.copies", "File", "Kept copies…"),
  action("file.export.json", "File", "Export ledger (JSON)…", { accelerator: "CmdOrCtrl+E" }),
  action("file.export.rows", "File", "Export rows…", { accelerator: "CmdOrCtrl+Shift+E" }),
  action("chart.savePng", "File", "Save chart as PNG…", { startsGroup: true }),
  action("chart.saveSvg", "File", "Save chart as SVG…"),
  action("report.print", "File", "Print report…", { accelerator: "CmdOrCtrl+P", startsGroup: true }),
  action("losses.print", "File", "Print loss statement…", { accelerator: "CmdOrCtrl+Alt+P" }),
  action("resupply.print", "File", "Print resupply proposal…"),
  action("report.pdf", "File", "Save report as PDF…", {
    accelerator: "CmdOrCtrl+Shift+P",
    browserAccelerator: "Shift+F8",
  }),
  action("report.html", "File", "Save report as page (HTML)…"),
  action("report.xlsx", "File", "Save report as workbook (XLSX)…"),
  action("report.ics", "File", "Save plan as calendar (ICS)…"),
  action("report.issue", "File", "Issue report…"),
  action("file.readOnly", "File", "Read-only, to show others", { startsGroup: true, form: "check" }),
  action("file.verify", "File", "Check the file"),
  action("file.quit", "File", "Quit", { by: "desktop", accelerator: "CmdOrCtrl+Q", startsGroup: true }),

  action("edit.undo", "Edit", "Undo", { accelerator: "CmdOrCtrl+Z" }),
  action("edit.redo", "Edit", "Redo", { accelerator: "CmdOrCtrl+Shift+Z" }),
  action("edit.cut", "Edit", "Cut", { by: "desktop", accelerator: "CmdOrCtrl+X", startsGroup: true }),
  action("edit.copy", "Edit", "Copy", { by: "desktop", accelerator: "CmdOrCtrl+C" }),
  action("edit.paste", "Edit", "Paste", { by: "desktop", accelerator: "CmdOrCtrl+V" }),
  action("edit.selectAll", "Edit", "Select all", { by: "desktop", accelerator: "CmdOrCtrl+A" }),
  action("chart.copy", "Edit", "Copy chart", { accelerator: "CmdOrCtrl+Shift+C" }),
  action("edit.duplicate", "Edit", "Duplicate", { accelerator: "CmdOrCtrl+D", startsGroup: true }),
  action("edit.delete", "Edit", "Delete", { accelerator: "Delete" }),
  action("edit.find", "Edit", "Find…", { accelerator: "CmdOrCtrl+F", startsGroup: true }),
  action("edit.history", "Edit", "Edit history"),

  action("view.timeline", "View", "Timeline", { accelerator: "CmdOrCtrl+1", form: "choice" }),
  action("view.supply", "View", "Supply", { accelerator: "CmdOrCtrl+2", form: "choice" }),
  action("view.watch", "View", "Watch", { accelerator: "F8", form: "choice" }),
  action("view.resupply", "View", "Resupply", { accelerator: "CmdOrCtrl+Shift+R", form: "choice" }),
  action("view.risk", "View", "Risk", { accelerator: "CmdOrCtrl+9", form: "choice" }),
  action("view.study", "View", "Study", { accelerator: "F4", form: "choice" }),
  action("view.craft", "View", "Craft", { accelerator: "CmdOrCtrl+3", form: "choice" }),
  action("view.depots", "View", "Depots", { accelerator: "CmdOrCtrl+4", form: "choice" }),
  action("view.journal", "View", "Journal", { accelerator: "CmdOrCtrl+5", form: "choice" }),
  action("view.cases", "View", "Plan cases", { accelerator: "CmdOrCtrl+6", form: "choice" }),
  action("view.losses", "View", "Losses", { accelerator: "CmdOrCtrl+7", form: "choice" }),
  action("view.reports", "View", "Reports", { accelerator: "CmdOrCtrl+8", form: "choice" }),
  action("view.table", "View", "Timeline as a table", {
    accelerator: "CmdOrCtrl+T",
    browserAccelerator: "F9",
    startsGroup: true,
    form: "check",
  }),
  action("view.bands", "View", "Risk bands on levels", { form: "check" }),
  action("view.inspector", "View", "Inspector", { accelerator: "CmdOrCtrl+Shift+I", form: "check" }),
  action("view.wholeCampaign", "View", "Fit all", { accelerator: "CmdOrCtrl+Shift+0" }),
  action("view.system", "View", "Follow the system theme", { startsGroup: true, form: "choice" }),
  action("view.light", "View", "Light", { form: "choice" }),
  action("view.dark", "View", "Dark", { form: "choice" }),
  action("view.larger", "View", "Larger", { by: "desktop", accelerator: "CmdOrCtrl+Plus", startsGroup: true }),
  action("view.smaller", "View", "Smaller", { by: "desktop", accelerator: "CmdOrCtrl+-" }),
  action("view.actualSize", "View", "Actual size", { by: "desktop", accelerator: "CmdOrCtrl+0" }),
  action("view.fullScreen", "View", "Full screen", { by: "desktop", accelerator: "F11" }),

  action("plan.addFlight", "Plan", "Add flight…", { accelerator: "CmdOrCtrl+Shift+F" }),
  action("plan.addSortie", "Plan", "Add sortie…", { accelerator: "CmdOrCtrl+Shift+S" }),
  action("plan.addLossPeriod", "Plan", "Add loss period…"),
  action("plan.plantFlights", "Plan", "Flights from a plant…"),
  action("plan.newCase", "Plan", "New case from this one…", {
    startsGroup: true,
    accelerator: "CmdOrCtrl+Shift+N",
    browserAccelerator: "Shift+F9",
  }),
  action("plan.renameCase", "Plan", "Rename case…"),
  action("plan.removeCase", "Plan", "Delete case…"),
  action("plan.nextCase", "Plan", "Next case", { accelerator: "CmdOrCtrl+]" }),
  action("plan.previousCase", "Plan", "Previous case", { accelerator: "CmdOrCtrl+[" }),
  action("plan.compare", "Plan", "Compare with…", { startsGroup: true }),
  action("plan.check", "Plan", "Check supply", { accelerator: "F5" }),
  action("plan.asOf", "Plan", "Set as-of date…"),
  action("plan.followRecords", "Plan", "Follow the last record"),

  action("record.reading", "Record", "Gauge reading…", { accelerator: "CmdOrCtrl+G" }),
  action("record.departure", "Record", "Flight departed…", { startsGroup: true }),
  action("record.arrival", "Record", "Flight arrived…", { accelerator: "CmdOrCtrl+Shift+A" }),
  action("record.loss", "Record", "Flight lost…"),
  action("record.loading", "Record", "Sortie loaded…", { startsGroup: true }),
  action("record.return", "Record", "Sortie returned…"),
  action("record.standDown", "Record", "Sortie stood down…"),
  action("record.closing", "Record", "Close the month…", { startsGroup: true }),
  action("record.entry", "Record", "Journal entry…"),

  action("help.page", "Help", "Help on this view", { accelerator: "F1" }),
  action("help.handbook", "Help", "Handbook"),
  action("help.keyboard", "Help", "Keyboard shortcuts", { accelerator: "Shift+F1" }),
  action("help.tour", "Help", "First tour"),
  action("help.news", "Help", "What is new"),
  action("help.about", "Help", "About Coldstock and its limits", { startsGroup: true }),
] as const satisfies readonly Action[];

export type ActionId = (typeof actions)[number]["id"];

/** How an action stands now; the page tells the desktop, so that the native menu agrees with the page's. */
export interface ActionState {
  readonly id: ActionId;
  readonly isEnabled: boolean;
  /** For the forms check and choice. */
  readonly isOn: boolean;
  /** What to show instead of the table's label ("Undo Move Packhorse 7"); null: the table's. */
  readonly label: string | null;
}
