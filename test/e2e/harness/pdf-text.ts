/** What stands on the pages of a PDF, in letters. */
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";

/** All of its text, runs of white space as one space. */
export const textOf = async (bytes: Uint8Array): Promise<string> => {
  const pdf = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  let text = "";
  for (let index = 1; index <= pdf.numPages; index += 1) {
    const content = await (await pdf.getPage(index)).getTextContent();
    text += content.items.map((item) => ("str" in item ? item.str : "")).join("");
  }
  return text.replace(/\s+/gu, " ");
};
