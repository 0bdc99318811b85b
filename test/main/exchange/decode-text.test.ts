/** Text in the encodings that files come in; what is none of them is refused in words. */
import { expect, it, test } from "vitest";
import { decodeText } from "../../../main/exchange/decode-text.ts";

const text = "Gerät;1,5\r\n";
const utf16be = (words: string): Buffer => Buffer.from(words, "utf16le").swap16();

it.each([
  ["UTF-8", Buffer.from(text), "UTF-8"],
  ["UTF-8 with its mark", Buffer.concat([Buffer.from([0xef, 0xbb, 0xbf]), Buffer.from(text)]), "UTF-8"],
  ["UTF-16, little end first", Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(text, "utf16le")]), "UTF-16"],
  ["UTF-16, big end first", Buffer.concat([Buffer.from([0xfe, 0xff]), utf16be(text)]), "UTF-16"],
  ["UTF-16 without its mark", Buffer.from(text, "utf16le"), "UTF-16"],
  ["UTF-16, big end first, without its mark", utf16be(text), "UTF-16"],
  ["Latin letters of one byte", Buffer.from(text, "latin1"), "Windows-1252"],
])("%s is read", (_name, bytes, encoding) => expect(decodeText(bytes)).toMatchObject({ text, encoding }));

// The Unicode Consortium's table CP1252.TXT: 0x80 is the euro sign, 0x96 an en dash, 0x92 a right single quotation mark.
test("Windows-1252 is not taken for Latin-1, and is said to be a guess", () => {
  const { text: read, remark } = decodeText(Buffer.from([0x61, 0x80, 0x96, 0x92, 0x0a]));
  expect(read).toBe("a€–’\n");
  expect(remark).toMatch(/read as Windows-1252/);
});

test.each([
  ["damaged UTF-8", Buffer.from([...Buffer.from("a\nGerät\n"), 0xc3, 0x0a]), /^Line 3 is damaged/],
  ["a byte of no letter", Buffer.from([0x61, 0x0a, 0x81]), /^Line 2 is damaged/],
  ["half a letter of UTF-16", Buffer.from([0xff, 0xfe, 0x61, 0x00, 0x62]), /says that it is UTF-16/],
  ["UTF-8 mark before what is none", Buffer.from([0xef, 0xbb, 0xbf, 0xff]), /says that it is UTF-8/],
  ["UTF-32", Buffer.from([0xff, 0xfe, 0, 0, 0x61, 0, 0, 0]), /UTF-32/],
  ["a program", Buffer.from([0x7f, 0x45, 0x4c, 0x46, 2, 1, 1, 0, 0, 0, 0, 3, 7, 0]), /is not text/],
  ["nothing", Buffer.alloc(0), /empty/],
])("%s is refused", (_name, bytes, words) => expect(() => decodeText(bytes)).toThrow(words));
