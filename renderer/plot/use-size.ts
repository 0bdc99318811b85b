/** The size of an element in whole pixels, as it changes. */
import { useLayoutEffect, useState } from "react";

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Nothing before the first layout. */
export const useSize = (element: HTMLElement | null): Size => {
  const [size, setSize] = useState<Size>({ width: 0, height: 0 });
  useLayoutEffect(() => {
    if (element === null) return undefined;
    const read = (): void => {
      const width = Math.floor(element.clientWidth);
      const height = Math.floor(element.clientHeight);
      setSize((old) => (old.width === width && old.height === height ? old : { width, height }));
    };
    read();
    const observer = new ResizeObserver(read);
    observer.observe(element);
    return () => observer.disconnect();
  }, [element]);
  return size;
};
