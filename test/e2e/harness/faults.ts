/** The faults that a search for accessibility faults finds, of whatever weight, as lines that can be read. */
import axe from "axe-core";
import type { Page } from "@playwright/test";

/**
 * How the page is looked at. Structure, names and keys are the same in each: they are searched in the light, and again
 * where forced colours bring styles of their own; in the dark only what hangs on colours. In forced colours the system
 * gives ink and ground, and the search, which reads the page's own, cannot tell their contrast.
 */
export const looks = ["light", "dark", "forced colours"] as const;
export type Look = (typeof looks)[number];

const ofColours = ["color-contrast", "link-in-text-block"];
// Off unless asked for: what is pressed has 24 by 24 pixels, or room around it (WCAG 2.2, 2.5.8).
const isWithSizes = { "target-size": { enabled: true } };
const options: Readonly<Record<Look, axe.RunOptions>> = {
  light: { rules: isWithSizes },
  dark: { runOnly: { type: "rule", values: ofColours } },
  "forced colours": { rules: { ...isWithSizes, "color-contrast": { enabled: false } } },
};

export const wear = (page: Page, look: Look): Promise<void> =>
  page.emulateMedia({
    colorScheme: look === "dark" ? "dark" : "light",
    forcedColors: look === "forced colours" ? "active" : "none",
  });

/** The search is brought into the page once: it has no frames. */
const searched = async (page: Page, look: Look, part: string | null): Promise<readonly string[]> => {
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(axe.source);
  return await page.evaluate(
    async ([within, how]) => {
      const search = (globalThis as unknown as { axe: typeof axe }).axe;
      const { violations } = await search.run(within ?? document, { ...how, resultTypes: ["violations"] });
      return violations.flatMap(({ id, nodes }) => {
        // A cell that is being written in is as large as ever: its own field lies over it, and takes what is pressed.
        const left = nodes.filter(({ html }) => id !== "target-size" || !/^<t[dh] [^>]*data-writing/.test(html));
        return left.length === 0 ? [] : [`${id}: ${left.map(({ html }) => html).join("\n")}`];
      });
    },
    [part, options[look]] as const,
  );
};

const MAX_TRIES = 5;
const TRY_MS = 200;

/**
 * Within a part of the page, or on all of it. A fault that goes by itself is of a page on its way (a field whose list
 * follows a moment after the typing): what is answered was there in every one of some searches.
 */
export const faultsOf = async (page: Page, look: Look, part: string | null = null): Promise<readonly string[]> => {
  for (let attempt = 1; ; attempt++) {
    const faults = await searched(page, look, part);
    if (faults.length === 0 || attempt === MAX_TRIES) return faults;
    await page.waitForTimeout(TRY_MS);
  }
};
