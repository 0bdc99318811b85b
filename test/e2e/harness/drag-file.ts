/** Files dragged onto the window as the system does it: real files by their paths, through the browser's own input. */
import type { CDPSession, Page } from "@playwright/test";

const COPY = 1;

export interface Drag {
  /** Lets the files go. */
  drop(): Promise<void>;
}

const point = { x: 400, y: 300 };

/** Holds files over the window. */
export const dragFiles = async (page: Page, paths: readonly string[]): Promise<Drag> => {
  const session: CDPSession = await page.context().newCDPSession(page);
  const data = { items: [], files: [...paths], dragOperationsMask: COPY };
  const send = async (type: "dragEnter" | "dragOver" | "drop"): Promise<void> => {
    await session.send("Input.dispatchDragEvent", { type, ...point, data });
  };
  await send("dragEnter");
  await send("dragOver");
  return {
    drop: async () => {
      await send("drop");
      await session.detach();
    },
  };
};
