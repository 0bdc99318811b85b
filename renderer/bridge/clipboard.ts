/** The clipboard of a browser, which may refuse it; then it is said what to do instead. */
import type { Reply } from "../../app/ground/failure.ts";

const refused = (message: string): Reply<never> => ({
  ok: false,
  failure: { code: "forbidden", message, field: null },
});

export const copyText = async (text: string): Promise<Reply<null>> => {
  try {
    await navigator.clipboard.writeText(text);
    return { ok: true, value: null };
  } catch {
    return refused(
      "This browser does not let a page write to the clipboard. Allow it for this address, and copy again.",
    );
  }
};

/** `base64`: a PNG. */
export const copyPicture = async (base64: string): Promise<Reply<null>> => {
  try {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const picture = new Blob([bytes], { type: "image/png" });
    await navigator.clipboard.write([new ClipboardItem({ "image/png": picture })]);
    return { ok: true, value: null };
  } catch {
    return refused("This browser does not let a page copy pictures. Save the chart as PNG instead.");
  }
};
