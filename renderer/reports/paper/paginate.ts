/** Lays pieces on pages: none is cut, a heading stays with what it heads, a table that goes on has its head again. */
import type { Piece } from "./pieces.ts";

/** `heights` belong to `pieces` one by one; any unit. A piece higher than a page has one to itself. */
export const paginate = (
  pieces: readonly Piece[],
  heights: readonly number[],
  pageHeight: number,
): readonly (readonly Piece[])[] => {
  const pages: Piece[][] = [];
  let page: Piece[] = [];
  let used = 0;
  let head: { readonly piece: Extract<Piece, { kind: "head" }>; readonly height: number } | null = null;
  const turn = (): void => {
    if (page.length > 0) pages.push(page);
    page = [];
    used = 0;
  };
  pieces.forEach((piece, index) => {
    const height = heights[index] ?? 0;
    if (used + together(pieces, heights, index) > pageHeight) {
      turn();
      if (piece.kind === "row" && head !== null) {
        page.push({ ...head.piece, caption: null });
        used += head.height;
      }
    }
    if (piece.kind === "head") head = { piece, height };
    page.push(piece);
    used += height;
  });
  turn();
  return pages;
};

/** The height of a piece with what must stay with it: after a heading, and after the head of a table, the next piece. */
const together = (pieces: readonly Piece[], heights: readonly number[], index: number): number => {
  const kind = pieces[index]?.kind;
  const own = heights[index] ?? 0;
  return kind === "heading" || kind === "head" ? own + together(pieces, heights, index + 1) : own;
};

/** On which page, from 1, each section begins. */
export const firstPages = (pages: readonly (readonly Piece[])[]): ReadonlyMap<string, number> =>
  new Map(
    pages.flatMap((page, index) =>
      page.flatMap((piece) => (piece.kind === "heading" ? [[piece.sectionId, index + 1] as const] : [])),
    ),
  );
