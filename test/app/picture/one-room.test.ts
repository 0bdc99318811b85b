/** Screen and paper have one union of shapes, one list of inks and one writer of SVG: nobody begins a second. */
import { expect, test } from "vitest";
import { projectFiles } from "../../check/source-files.ts";

const sources = projectFiles().filter(({ path }) => /^(app|db|main|renderer)\/.*\.tsx?$/.test(path));

/** Files with the pattern: in the room of pictures, where each must be found, and elsewhere, where none may be. */
const found = (pattern: RegExp): { readonly inRoom: readonly string[]; readonly elsewhere: readonly string[] } => {
  const paths = sources.filter(({ text }) => pattern.test(text)).map(({ path }) => path);
  const isInRoom = (path: string): boolean => path.startsWith("app/picture/");
  return { inRoom: paths.filter(isInRoom), elsewhere: paths.filter((path) => !isInRoom(path)) };
};

test.each([
  ["kinds of shapes", /readonly kind: "(area|rect|dot|outline|lettering)"/],
  ["a union of shapes", /\b(interface|type) (Shape|PathShape|TextShape|AreaShape)\s*(=|\{|extends)/],
  ["a list of inks", /\btype Ink\s*=/],
  ["SVG as text", /\bsvgNode\(|[`"']<(svg|path|circle|rect|g)[ >`"']/],
])("%s stand in one room alone", (_, pattern) => {
  const { inRoom, elsewhere } = found(pattern);
  expect(inRoom).not.toEqual([]);
  expect(elsewhere).toEqual([]);
});
