/** Text made safe inside HTML, XML and SVG. */

/** What XML 1.0 (section 2.2, Char) does not allow in a document, not even escaped. */
// eslint-disable-next-line no-control-regex -- these are what is taken out
const forbidden = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Cs}/gu;

const escapes: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** For the text of an element and for the value of an attribute in either kind of quotes. */
export const escapeMarkup = (text: string): string =>
  text.replaceAll(forbidden, "").replace(/[&<>"']/g, (character) => escapes[character] ?? character);
