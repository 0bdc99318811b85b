/** A key that changes when the canvases must be drawn anew though no data changed: theme, fonts, pixel density. */
import { useEffect, useState } from "react";
import { useApp } from "../../state/use-session.ts";

export const useLook = (): string => {
  const theme = useApp((state) => state.theme);
  const [count, setCount] = useState(0);
  const [ratio, setRatio] = useState(devicePixelRatio);
  useEffect(() => {
    let isShown = true;
    const again = (): void => {
      if (!isShown) return;
      setCount((old) => old + 1);
      setRatio(devicePixelRatio);
    };
    const dark = matchMedia("(prefers-color-scheme: dark)");
    const density = matchMedia(`(resolution: ${ratio}dppx)`);
    const forced = matchMedia("(forced-colors: active)");
    dark.addEventListener("change", again);
    forced.addEventListener("change", again);
    density.addEventListener("change", again);
    void document.fonts.ready.then(again);
    return () => {
      isShown = false;
      dark.removeEventListener("change", again);
      forced.removeEventListener("change", again);
      density.removeEventListener("change", again);
    };
  }, [ratio]);
  return `${theme} ${count}`;
};
