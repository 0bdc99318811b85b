/** Reads an SVG with a strict XML parser that is not ours. */
import { SaxesParser, type SaxesTagPlain } from "saxes";

export interface ReadSvg {
  /** The title of the whole. */
  readonly title: string;
  readonly texts: readonly string[];
  readonly tags: ReadonlySet<string>;
  /** Paths, rectangles and circles. */
  readonly marks: number;
  /** Fill of the first rectangle that is drawn: the ground. */
  readonly ground: string;
  readonly width: number;
  readonly height: number;
  /** Attributes that lead out of the file. */
  readonly outside: readonly string[];
}

const leadsOut = (name: string, value: string): boolean =>
  /href|src/i.test(name) || (/url\(/i.test(value) && !/^url\(#[\w-]+\)$/.test(value));

/** Throws where the text is not well-formed XML. */
export const readSvg = (svg: string): ReadSvg => {
  const parser = new SaxesParser();
  const open: SaxesTagPlain[] = [];
  const seen: SaxesTagPlain[] = [];
  const words: { tag: string; text: string }[] = [];
  parser.on("error", (error) => {
    throw error;
  });
  parser.on("opentag", (tag) => {
    open.push(tag);
    seen.push(tag);
    if (tag.name === "text" || tag.name === "title") words.push({ tag: tag.name, text: "" });
  });
  parser.on("text", (text) => {
    const inside = open.at(-1)?.name;
    const last = words.at(-1);
    if (last !== undefined && inside === last.tag) last.text += text;
  });
  parser.on("closetag", () => open.pop());
  parser.write(svg).close();
  const root = seen[0]?.attributes;
  return {
    title: words.find(({ tag }) => tag === "title")?.text ?? "",
    texts: words.filter(({ tag }) => tag === "text").map(({ text }) => text),
    tags: new Set(seen.map(({ name }) => name)),
    marks: seen.filter(({ name }) => ["path", "rect", "circle"].includes(name)).length,
    ground: seen.find(({ name, attributes }) => name === "rect" && "fill" in attributes)?.attributes["fill"] ?? "",
    width: Number(root?.["width"]),
    height: Number(root?.["height"]),
    outside: seen.flatMap(({ attributes }) =>
      Object.entries(attributes).flatMap(([name, value]) =>
        name !== "xmlns" && leadsOut(name, value) ? [`${name}=${value}`] : [],
      ),
    ),
  };
};
