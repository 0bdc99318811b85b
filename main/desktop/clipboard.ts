/** The clipboard, by the desktop's own hand: the page has no permission for it (lock-down.ts), and needs none. */
import * as electron from "electron";
import { PlanningError } from "../../app/ground/failure.ts";

/** Electron before its clipboard became that of the web, which a test may run on: pictures go by a call of their own. */
interface OlderClipboard {
  writeImage(picture: electron.NativeImage): void;
}

const isOlder = (clipboard: object): clipboard is OlderClipboard => "writeImage" in clipboard;

export const copyText = async (text: string): Promise<null> => {
  await electron.clipboard.writeText(text);
  return null;
};

/** `base64`: a PNG. Throws "invalid input" when it is none. */
export const copyPicture = async (base64: string): Promise<null> => {
  const bytes = Buffer.from(base64, "base64");
  const picture = electron.nativeImage.createFromBuffer(bytes);
  if (picture.isEmpty()) throw new PlanningError("invalid input", "What was to be copied is no picture.", null);
  const clipboard: object = electron.clipboard;
  if (isOlder(clipboard)) clipboard.writeImage(picture);
  else
    await electron.clipboard.write([
      new electron.ClipboardItem({ "image/png": new Blob([bytes], { type: "image/png" }) }),
    ]);
  return null;
};
