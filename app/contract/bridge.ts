/**
 * The bridge: all that a page can reach, the same in every host. The desktop's preload and the browser host's page side
 * implement it; the page finds it as `window.coldstock` (desktop) or makes it (browser). No path ever comes from the page.
 */
import type { Progress } from "../work/working.ts";
import type { RowsFile } from "../exchange/rows/rows-source.ts";
import type { ActionId, ActionState } from "./actions.ts";
import type { Input, Output, PageOperation } from "./contract.ts";
import type { MergeChoices } from "../merge/merge-choices.ts";
import type { MergeView } from "../merge/merge-view.ts";
import type { Reply } from "../ground/failure.ts";
import type { FileType } from "../ground/file-types.ts";
import type { LedgerInfo } from "../ledger/ledger-view.ts";

/** What the page is told without asking. */
export interface BridgeEvents {
  /** The open ledger changed, or another was opened: an older revision or path on screen is stale. */
  changed: { readonly revision: number; readonly path: string };
  /** How far a call with a job id has come, and what is known so far. */
  progress: { readonly jobId: string } & Progress;
  /** An action chosen in the native menu. */
  action: { readonly id: ActionId };
  /** Something that the person should know: the service was restarted, a file given to the program could not be opened. */
  notice: { readonly tone: "information" | "warning"; readonly words: string };
}
export type BridgeEventName = keyof BridgeEvents;

/** A ledger that can be opened without asking where it is. The token stands for its path, which stays with the host. */
export interface LedgerChoice {
  readonly token: string;
  /** File name without folder. */
  readonly name: string;
  /** Where it is, for a person. */
  readonly place: string;
  readonly modifiedAt: number | null;
}

/** A file that the host holds for the page: chosen for a merge, or dropped on the window. The token stands for it. */
export interface HeldFile {
  readonly token: string;
  /** File name without folder. */
  readonly name: string;
}

/** A file dropped on the window, as the page sees it: a browser's File. Its path is never the page's. */
export interface DroppedFile {
  readonly name: string;
  readonly size: number;
}

/** What kind of file is meant; decides the ending and the filter of the dialog. */
export type TextKind = "json" | "csv";

/** A reply of null: the person closed the dialog without choosing. */
export interface Host {
  readonly kind: "desktop" | "browser";
  readonly platform: "mac" | "windows" | "linux";
  /** Ledgers opened before (desktop) or in the data folder (browser), the latest first. */
  ledgers(): Promise<Reply<readonly LedgerChoice[]>>;
  /** Opens one of {@link Host.ledgers}, or a ledger that the host holds (browser: a copy of it in the data folder). */
  openLedger(token: string): Promise<Reply<LedgerInfo>>;
  /** Asks for a ledger file and opens it (browser: a copy of it in the data folder). */
  pickLedger(): Promise<Reply<LedgerInfo | null>>;
  /**
   * Makes an empty ledger, or one with the plan of a demonstration and none of its records; the desktop asks where, the
   * browser host puts it into the data folder.
   */
  createLedger(programme: string, copyOf?: "tarn" | "beck"): Promise<Reply<LedgerInfo | null>>;
  /** Opens the demonstration ledger, made afresh if it is not there. */
  openDemonstration(which: "tarn" | "beck"): Promise<Reply<LedgerInfo>>;
  /** Asks for an exported document and for a place, and makes a ledger of it. */
  importLedger(): Promise<Reply<LedgerInfo | null>>;
  /** Asks where, and writes the whole open ledger as a new file (browser: in the data folder); answers its name. */
  saveCopy(): Promise<Reply<string | null>>;
  /** Asks for a file of rows (table, workbook, calendar) and reads its bytes; 48 MB at most, larger ones are not read. */
  pickRows(): Promise<Reply<RowsFile | null>>;
  /** Takes note of a dropped file. The desktop keeps its path, a browser the file itself. */
  holdDropped(file: DroppedFile): Promise<Reply<HeldFile>>;
  /** Makes a ledger of a held document; the desktop asks where. */
  importHeld(token: string): Promise<Reply<LedgerInfo | null>>;
  /** The bytes of a held file of rows, as {@link Host.pickRows} gives them. */
  readHeld(token: string): Promise<Reply<RowsFile>>;
  /** Asks for another ledger of the programme, a file or an exported document, to be looked at; nothing is opened. */
  pickOther(): Promise<Reply<HeldFile | null>>;
  /** What the records of a held ledger would bring in. `jobId`: as of {@link Bridge.call}. */
  previewMerge(token: string, choices: MergeChoices, jobId: string): Promise<Reply<MergeView>>;
  /** Brings them in, as they were looked at. */
  takeMerge(token: string, choices: MergeChoices, fingerprint: string): Promise<Reply<LedgerInfo>>;
  /** Asks where, and writes; answers the name of the file written. */
  saveText(kind: TextKind, suggestedName: string, text: string): Promise<Reply<string | null>>;
  /**
   * Asks where (a browser: downloads), and writes bytes whole or not at all: what was there before stays when they cannot
   * be written. Bytes in base64, 96 MB of it at most. Answers the name of the file written.
   */
  saveFile(suggestedName: string, mediaType: FileType, base64: string): Promise<Reply<string | null>>;
  /** Prints what the page's print style sheet shows, by the system's own dialog. False: the person closed it. */
  print(): Promise<Reply<boolean>>;
  /** Puts text on the clipboard. */
  copyText(text: string): Promise<Reply<null>>;
  /** Puts a picture on the clipboard: PNG in base64. */
  copyPicture(base64: string): Promise<Reply<null>>;
  /** The native menu follows; nothing to do in a browser. */
  showActions(states: readonly ActionState[]): void;
  /** Window chrome follows the chosen theme; nothing to do in a browser. */
  showTheme(theme: "system" | "light" | "dark"): void;
}

export interface Bridge {
  /**
   * Asks the service. Never rejects: what goes wrong is a Failure in the reply. With a `jobId` (any unique id text) the
   * call sends `progress` events under it and can be stopped by the operation "job.cancel". A job id of the form
   * "asker#number" says who asks: a newer call of the same asker stops the older one.
   */
  call<N extends PageOperation>(name: N, input: Input<N>, jobId?: string): Promise<Reply<Output<N>>>;
  /** Listens; the answer stops listening. */
  on<E extends BridgeEventName>(event: E, listener: (payload: BridgeEvents[E]) => void): () => void;
  readonly host: Host;
}
