/** Files in and out of a page: the browser's own dialog, and a download. */

/** Asks for one file; null: closed without choosing. `accept` as in HTML, ".json,application/json". */
export const pickFile = async (accept: string): Promise<File | null> =>
  await new Promise((resolve) => {
    const input = document.createElement("input");
    input.type = "file";
    input.accept = accept;
    input.hidden = true;
    const finish = (file: File | null): void => {
      input.remove();
      resolve(file);
    };
    input.addEventListener("change", () => finish(input.files?.item(0) ?? null));
    input.addEventListener("cancel", () => finish(null));
    document.body.append(input);
    input.click();
  });

const KEEP_ADDRESS_MS = 60_000;

/** Hands text or bytes to the browser as a download of the given name. */
export const download = (fileName: string, type: string, content: BlobPart): void => {
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = fileName;
  link.hidden = true;
  document.body.append(link);
  link.click();
  link.remove();
  // The browser reads the address after the click; there is no event for "done".
  setTimeout(() => URL.revokeObjectURL(address), KEEP_ADDRESS_MS);
};
