/**
 * A page's globals within Node, for tests that also run the real service: under Vitest's own jsdom environment modules
 * are loaded as for a browser, and the files beside them are not found. Import it before anything of React.
 */
import { afterAll } from "vitest";
import { builtinEnvironments } from "vitest/runtime";

const dom = await builtinEnvironments.jsdom.setup(globalThis, {});
// A page without layout has no sizes that could change.
globalThis.ResizeObserver ??= class implements ResizeObserver {
  observe(): void {}
  unobserve(): void {}
  disconnect(): void {}
};
afterAll(() => dom.teardown(globalThis));
