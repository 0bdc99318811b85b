/** The colours of charts as the page wears them now; follows the choice of theme, the system, and a page that goes to paper. */
import { useEffect, useState } from "react";
import { flushSync } from "react-dom";
import type { Theme } from "../../app/picture/ink.ts";
import { readChartTheme } from "../charts/chart-theme.ts";

export const useChartTheme = (): Theme => {
  const [theme, setTheme] = useState(() => readChartTheme(document.body));
  useEffect(() => {
    const read = (): void => setTheme(readChartTheme(document.body));
    // Paper is taken at once, without waiting for the next frame.
    const readAtOnce = (): void => flushSync(read);
    const system = matchMedia("(prefers-color-scheme: dark)");
    const paper = matchMedia("print");
    paper.addEventListener("change", readAtOnce);
    const chosen = new MutationObserver(read);
    system.addEventListener("change", read);
    chosen.observe(document.documentElement, { attributeFilter: ["data-theme"] });
    return () => {
      system.removeEventListener("change", read);
      paper.removeEventListener("change", readAtOnce);
      chosen.disconnect();
    };
  }, []);
  return theme;
};
