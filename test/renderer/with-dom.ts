/**
 * A page's globals within Node, for tests that also run the real service: under Vitest's own jsdom environment modules
 * are loaded as for a browser, and the files beside them are not found. Import it before anything of React.
 */
import { builtinEnvironments } from "vitest/runtime";

await builtinEnvironments.jsdom.setup(globalThis, {});
// A page without layout has no sizes that could change.
globalThis.ResizeObserver ??= class implements ResizeObserver {
  observe(): void {}
  unobserve(): void {}
  disconnect(): void {}
};
// It stays to the end of the process, which is this file's own: what React has still to do would find no window.
