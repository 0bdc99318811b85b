/** The running program as a journey sees it, whichever host shows it. */
import type { Page } from "@playwright/test";
import type { ActionId } from "../../../app/contract/actions.ts";

export type HostKind = "browser" | "desktop";

export interface HostOption {
  host: HostKind;
}

export interface Planner {
  readonly host: HostKind;
  readonly page: Page;
  /** Chooses an action in the host's menu: the page's own in the browser, the native one on the desktop. */
  choose(action: ActionId): Promise<void>;
  /** Does something that asks for a file, and gives it this one. */
  giveFile(path: string, ask: () => Promise<void>): Promise<void>;
  /** Does something that asks for a file and then for a place for the ledger made of it (the browser host asks no place). */
  giveFileAndPlace(path: string, place: string, ask: () => Promise<void>): Promise<void>;
  /** Does something that asks for a place for a new ledger (the browser host asks none). */
  givePlace(place: string, ask: () => Promise<void>): Promise<void>;
  /** Does something that saves a file, and answers with what was saved. */
  savedText(ask: () => Promise<void>): Promise<string>;
  /** Presses the keys that paste, where the focus is; with a text, this is copied elsewhere before. */
  paste(text?: string): Promise<void>;
  /** The text on the clipboard. */
  copiedText(): Promise<string>;
  /** The size of the picture on the clipboard, pixels; null: there is none. */
  copiedPicture(): Promise<{ readonly width: number; readonly height: number } | null>;
  savedBytes(ask: () => Promise<void>): Promise<Buffer>;
  /** Does something that prints, and answers with what came onto the paper, as PDF. */
  printed(ask: () => Promise<void>): Promise<Buffer>;
  /** The size of the page, pixels. */
  resize(width: number, height: number): Promise<void>;
  /** A window of 1280 by 800 in which everything is twice as large, by the host's own means. */
  enlarge(): Promise<void>;
  close(): Promise<void>;
}

/** Where a start keeps what it keeps, and what it is given. */
export interface Start {
  /** Folder of the program's own files. */
  readonly home: string;
  /** A ledger file named at the start. */
  readonly ledger?: string;
}
