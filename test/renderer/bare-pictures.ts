/** What jsdom lacks of a browser for a view with a chart in it; pictures are not drawn. */
import { vi } from "vitest";

/** Call before each test; undone by `vi.unstubAllGlobals` and `vi.restoreAllMocks`. */
export const withoutPictures = (): void => {
  vi.stubGlobal("matchMedia", () => ({
    matches: false,
    addEventListener: () => undefined,
    removeEventListener: () => undefined,
  }));
  vi.stubGlobal(
    "ResizeObserver",
    class {
      observe() {}
      unobserve() {}
      disconnect() {}
    },
  );
  vi.spyOn(HTMLCanvasElement.prototype, "getContext").mockReturnValue(null);
};
