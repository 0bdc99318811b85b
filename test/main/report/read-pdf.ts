/** Reads a PDF's text by a reader from the registry. */
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";

/** Without blanks: where a line breaks says nothing of what is written. */
export const plain = (text: string): string => text.replace(/[\s\u2009]+/gu, "");

export const readPdf = async (bytes: Buffer) => {
  const pdf = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  let text = "";
  for (let index = 1; index <= pdf.numPages; index += 1) {
    const content = await (await pdf.getPage(index)).getTextContent();
    text += content.items.map((item) => ("str" in item ? item.str : "")).join("");
  }
  return { text: plain(text), outline: await pdf.getOutline(), pages: pdf.numPages, info: await pdf.getMarkInfo() };
};

export const pdfText = async (bytes: Buffer): Promise<string> => (await readPdf(bytes)).text;
