/** The handbook holds together: a page a view, links that lead somewhere, methods with formula and source. */
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { lexer } from "marked";
import { findInPages } from "../../../renderer/handbook/find-in-pages.ts";
import { type HandbookPage, headingId, pages, targetOf } from "../../../renderer/handbook/pages.ts";
import { tourSteps } from "../../../renderer/handbook/tour-steps.ts";
import { actions } from "../../../app/contract/actions.ts";

const folder = join(import.meta.dirname, "../../../renderer/handbook/pages");
const app = join(import.meta.dirname, "../../../app");

const pageOf = (id: string): HandbookPage => {
  const page = pages.find((each) => each.id === id);
  if (page === undefined) throw new Error(`no page ${id}`);
  return page;
};

const headingsOf = ({ text }: HandbookPage): readonly string[] =>
  [...text.matchAll(/^#{1,3} (.+)$/gm)].map(([, words = ""]) => headingId(words));

const linksOf = ({ text }: HandbookPage): readonly string[] =>
  [...text.matchAll(/\]\(([^)]+)\)/g)].map(([, to = ""]) => to);

const viewIds = actions
  .filter(({ id, form }) => id.startsWith("view.") && form === "choice")
  .map(({ id }) => id.slice("view.".length))
  .filter((id) => !["system", "light", "dark"].includes(id));

test("every view has its page, named as the view is, and every page has a line in the list", () => {
  expect(viewIds.length).toBeGreaterThan(10);
  for (const id of viewIds) {
    const label = actions.find((action) => action.id === `view.${id}`)?.label;
    expect(pageOf(id).title).toBe(label);
  }
  const files = readdirSync(folder).map((name) => name.replace(/\.md$/, ""));
  expect(pages.map(({ id }) => id).toSorted()).toEqual(files.toSorted());
});

test("every link leads to a page and a heading that are there", () => {
  const all = pages.flatMap((page) => linksOf(page).map((href) => ({ from: page.id, href })));
  expect(all.length).toBeGreaterThan(30);
  for (const { from, href } of all) {
    const target = targetOf(href);
    expect({ from, href, isThere: target !== null }).toMatchObject({ isThere: true });
    if (target?.heading == null) continue;
    const isThere = headingsOf(pageOf(target.page)).includes(target.heading);
    expect({ from, href, isThere }).toMatchObject({ isThere: true });
  }
});

test("every view says how its numbers are made, and no method is there for nothing", () => {
  const named = new Set<string>();
  for (const id of viewIds) {
    const part = pageOf(id).text.split("## Numbers here")[1] ?? "";
    const methods = [...part.matchAll(/methods\.md#([a-z-]+)/g)].map(([, heading = ""]) => heading);
    expect({ id, isNamed: methods.length > 0 }).toEqual({ id, isNamed: true });
    for (const heading of methods) named.add(heading);
  }
  const sections = headingsOf(pageOf("methods")).slice(1);
  expect([...named].toSorted()).toEqual(sections.toSorted());
});

const codeOf = (): string =>
  readdirSync(app, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .map((name) => readFileSync(join(app, name), "utf8"))
    .join("\n")
    // Comments break their lines anywhere.
    .replace(/\s*\n \* /g, " ")
    .replace(/\\/g, "");

const WITHOUT_PUBLICATION = /common practice, no source|no formula and no source|a sum; no source/;

test("every method has one formula and a source that stands in the code, or says that there is none", () => {
  const code = codeOf();
  const methods = pageOf("methods").text.split(/^## /m).slice(1);
  expect(methods.length).toBeGreaterThan(12);
  for (const method of methods) {
    const [title = ""] = method.split("\n");
    expect({ title, formulas: method.match(/^`.+`$/gm)?.length }).toEqual({ title, formulas: 1 });
    const source = /^Source: (.+)$/m.exec(method)?.[1] ?? "";
    expect({ title, hasSource: source !== "" }).toEqual({ title, hasSource: true });
    if (WITHOUT_PUBLICATION.test(source)) continue;
    for (const one of source.split("; ").filter((part) => /\d{4}/.test(part))) {
      const words = one.replace(/\.$/, "").replace(/^.*as the exponentially/, "as the exponentially");
      expect({ title, words, isInCode: code.includes(words) }).toMatchObject({ isInCode: true });
    }
  }
});

test("the glossary has the words that the project fixes", () => {
  const developers = readFileSync(join(app, "../DEVELOPERS.md"), "utf8");
  const fixed = ["boil-off", "reserve", "slip", "sortie", "plan case", "forecast", "supply check", "loss statement"];
  for (const word of fixed) {
    expect(developers).toContain(word);
    expect(pageOf("glossary").text).toContain(word);
  }
});

test("text that looks like HTML is no element, and nothing but what can be shown stands in a page", () => {
  const shown = new Set(["heading", "paragraph", "list", "table", "space"]);
  for (const { text } of pages) for (const token of lexer(text)) expect(shown).toContain(token.type);
});

test("the search finds a part by all of its words, and says nothing of a question that nobody asked", () => {
  expect(findInPages(pages, "  ")).toEqual([]);
  expect(findInPages(pages, "fitted interval χ²").map(({ page, heading }) => `${page}#${heading}`)).toContain(
    "methods#fitted-loss-rate",
  );
  expect(findInPages(pages, "zebra")).toEqual([]);
});

test("the tour has five steps, each at a view that is there", () => {
  expect(tourSteps).toHaveLength(5);
  for (const { view } of tourSteps) expect(viewIds).toContain(view);
});
