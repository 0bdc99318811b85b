/** Opens an address in the person's browser, where there is a screen to show it on. */
import { spawn } from "node:child_process";

/** Whether a window can be shown here. */
export const hasScreen = (): boolean =>
  process.platform !== "linux" ||
  Boolean(process.env["DISPLAY"] ?? "") ||
  Boolean(process.env["WAYLAND_DISPLAY"] ?? "");

const opener = (address: string): [string, string[]] => {
  switch (process.platform) {
    case "darwin":
      return ["open", [address]];
    case "win32":
      return ["cmd", ["/c", "start", "", address]];
    default:
      return ["xdg-open", [address]];
  }
};

/** Tries; the address was printed, so nothing is lost where it does not come off. */
export const openInBrowser = (address: string): void => {
  if (!hasScreen()) return;
  const [program, input] = opener(address);
  const child = spawn(program, input, { stdio: "ignore", detached: true });
  child.on("error", () => undefined);
  child.unref();
};
