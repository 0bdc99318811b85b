/** The pages of the handbook: the Markdown that the repository keeps, in the order in which they are listed. */
import type { ViewId } from "../state/app-state.ts";

/** Each view has a page of its own, under its name. */
const viewPages = [
  "timeline",
  "supply",
  "watch",
  "resupply",
  "risk",
  "study",
  "craft",
  "depots",
  "journal",
  "cases",
  "losses",
  "reports",
] as const satisfies readonly ViewId[];

export const pageIds = ["begin", ...viewPages, "methods", "glossary", "whats-new"] as const;
export type PageId = (typeof pageIds)[number];

export interface HandbookPage {
  readonly id: PageId;
  /** Its first heading. */
  readonly title: string;
  readonly text: string;
}

const texts = import.meta.glob<string>("./pages/*.md", { query: "?raw", import: "default", eager: true });

const pageOf = (id: PageId): HandbookPage => {
  const text = texts[`./pages/${id}.md`];
  if (text === undefined) throw new Error(`The handbook has no page ${id}.`);
  return { id, title: /^# (.+)$/m.exec(text)?.[1] ?? id, text };
};

export const pages: readonly HandbookPage[] = pageIds.map(pageOf);

/** Where a link of a page leads: another page, and a heading in it; null: nowhere in the handbook. */
export const targetOf = (href: string): { readonly page: PageId; readonly heading: string | null } | null => {
  const [, name, heading] = /^([a-z-]+)\.md(?:#(.+))?$/.exec(href) ?? [];
  const page = pageIds.find((id) => id === name);
  return page === undefined ? null : { page, heading: heading ?? null };
};

/** "Status and margin" → "status-and-margin". */
export const headingId = (heading: string): string =>
  heading
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-|-$/g, "");
