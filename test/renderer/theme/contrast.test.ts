/**
 * Contrast of the tokens. Source: W3C, Web Content Accessibility Guidelines 2.2, success criteria 1.4.3 (text 4.5:1) and
 * 1.4.11 (marks 3:1); ratio by the library culori.
 */
import { displayable, wcagContrast } from "culori";
import { describe, expect, it } from "vitest";
import { themes, token, tokens } from "./read-tokens.ts";

const grounds = ["ground", "sheet", "raised"];
const texts = ["ink", "ink-soft", "accent", "status-supplied", "status-thin", "status-short"];
const marks = ["edge", ...[0, 1, 2, 3, 4, 5].map((place) => `propellant-${place}`)];

describe.each(themes)("in the %s theme", (theme) => {
  it.each(texts.flatMap((text) => grounds.map((ground) => [text, ground])))("%s reads on %s", (text, ground) => {
    expect(wcagContrast(token(theme, text), token(theme, ground))).toBeGreaterThanOrEqual(4.5);
  });

  it.each(marks.flatMap((mark) => grounds.map((ground) => [mark, ground])))("%s is seen on %s", (mark, ground) => {
    expect(wcagContrast(token(theme, mark), token(theme, ground))).toBeGreaterThanOrEqual(3);
  });

  it.each(["accent-wash", "hover-wash", "warning-wash", "failure-wash"])("ink reads on %s", (wash) => {
    expect(wcagContrast(token(theme, "ink"), token(theme, wash))).toBeGreaterThanOrEqual(4.5);
  });

  it("what is written on the accent reads", () => {
    expect(wcagContrast(token(theme, "accent-ink"), token(theme, "accent"))).toBeGreaterThanOrEqual(4.5);
  });

  it("every colour can be shown on an ordinary screen", () => {
    expect([...tokens(theme)].filter(([, colour]) => !displayable(colour)).map(([name]) => name)).toEqual([]);
  });
});
