/** The size of an element in whole pixels, as it changes. */
import { type RefObject, useLayoutEffect, useState } from "react";

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** null before the first layout. */
export const useSize = (ref: RefObject<HTMLElement | null>): Size | null => {
  const [size, setSize] = useState<Size | null>(null);
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return undefined;
    const read = (): void => {
      const width = Math.floor(element.clientWidth);
      const height = Math.floor(element.clientHeight);
      setSize((old) => (old?.width === width && old.height === height ? old : { width, height }));
    };
    read();
    const observer = new ResizeObserver(read);
    observer.observe(element);
    return () => observer.disconnect();
  }, [ref]);
  return size;
};
