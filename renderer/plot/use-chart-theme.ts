/** The colours of charts as the page wears them now; follows the choice of theme and the system. */
import { useEffect, useState } from "react";
import { type ChartTheme, readChartTheme } from "../charts/chart-theme.ts";

export const useChartTheme = (): ChartTheme => {
  const [theme, setTheme] = useState(() => readChartTheme(document.body));
  useEffect(() => {
    const read = (): void => setTheme(readChartTheme(document.body));
    const system = matchMedia("(prefers-color-scheme: dark)");
    const chosen = new MutationObserver(read);
    system.addEventListener("change", read);
    chosen.observe(document.documentElement, { attributeFilter: ["data-theme"] });
    return () => {
      system.removeEventListener("change", read);
      chosen.disconnect();
    };
  }, []);
  return theme;
};
