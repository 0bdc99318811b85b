/** Says which columns of a wide table are out of sight, and brings them in: no column is missing without a sign. */
import { type RefObject, useLayoutEffect, useState } from "react";
import { Button } from "../button.tsx";

export interface Hidden {
  readonly left: number;
  readonly right: number;
}

const NONE: Hidden = { left: 0, right: 0 };
/** A column of which more than this is cut off is not in sight, pixels. */
const CUT = 12;

/** How many columns lie out of sight at either side, kept up with scrolling and the size of things. */
export const useHiddenColumns = (scroller: RefObject<HTMLElement | null>): Hidden => {
  const [hidden, setHidden] = useState(NONE);
  useLayoutEffect(() => {
    const element = scroller.current;
    if (element === null) return undefined;
    const read = (): void => {
      const headings = [...element.querySelectorAll<HTMLElement>("thead th")];
      const [first, ...rest] = headings.map((heading) => heading.getBoundingClientRect());
      const box = element.getBoundingClientRect();
      // The first column stays where it is, and the others pass under it.
      const from = box.left + (first?.width ?? 0);
      const until = box.left + element.clientLeft + element.clientWidth;
      const isScrolled = element.scrollLeft > 0;
      const left = isScrolled ? rest.filter((heading) => heading.left < from - CUT).length : 0;
      const right = rest.filter((heading) => heading.right > until + CUT).length;
      setHidden((old) => (old.left === left && old.right === right ? old : { left, right }));
    };
    read();
    const observer = new ResizeObserver(read);
    observer.observe(element);
    const table = element.querySelector("table");
    if (table !== null) observer.observe(table);
    element.addEventListener("scroll", read, { passive: true });
    return () => {
      observer.disconnect();
      element.removeEventListener("scroll", read);
    };
  }, [scroller]);
  return hidden;
};

const columnsWords = (count: number): string => `${count} more ${count === 1 ? "column" : "columns"}`;

interface SignProps {
  readonly hidden: Hidden;
  readonly scroller: RefObject<HTMLElement | null>;
}

export const HiddenColumnSign = ({ hidden, scroller }: SignProps) => {
  const go = (by: 1 | -1): void => {
    const element = scroller.current;
    element?.scrollBy({ left: by * element.clientWidth * 0.6 });
  };
  return (
    <>
      {hidden.left > 0 && (
        <Button look="quiet" aria-label={`${columnsWords(hidden.left)} at the left`} onPress={() => go(-1)}>
          ‹ {hidden.left}
        </Button>
      )}
      {hidden.right > 0 && (
        <Button look="quiet" aria-label={`${columnsWords(hidden.right)} at the right`} onPress={() => go(1)}>
          {columnsWords(hidden.right)} ›
        </Button>
      )}
    </>
  );
};
