/** Search in the handbook: every word of the question must stand in a part of a page. */
import { type HandbookPage, type PageId, headingId } from "./pages.ts";

export interface Found {
  readonly page: PageId;
  /** The page's title, and the heading where it is not the first. */
  readonly title: string;
  readonly heading: string | null;
  /** The first line with a word of the question. */
  readonly line: string;
}

/** Signs of Markdown that mean nothing to a reader of one line. */
const bare = (line: string): string =>
  line
    .replace(/\[([^\]]*)\]\([^)]*\)/g, "$1")
    .replace(/[*`|]/g, " ")
    .replace(/^[\s#\-\d.]+/, "")
    .replace(/\s+/g, " ")
    .trim();

const partsOf = (text: string): readonly string[] => text.split(/^(?=## )/m);

export const findInPages = (pages: readonly HandbookPage[], question: string): readonly Found[] => {
  const words = question.toLowerCase().split(/\s+/).filter(Boolean);
  if (words.length === 0) return [];
  return pages.flatMap(({ id, title, text }) =>
    partsOf(text).flatMap((part): readonly Found[] => {
      const seen = part.toLowerCase();
      if (!words.every((word) => seen.includes(word))) return [];
      const heading = /^## (.+)$/m.exec(part)?.[1] ?? null;
      const line = part.split("\n").find((each) => words.some((word) => each.toLowerCase().includes(word))) ?? "";
      return [
        {
          page: id,
          title: heading === null ? title : `${title}: ${heading}`,
          heading: heading === null ? null : headingId(heading),
          line: bare(line).slice(0, 120),
        },
      ];
    }),
  );
};
