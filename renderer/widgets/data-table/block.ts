/** A block of cells as the clipboard has it: lines of cells parted by tabs, a cell with a line end inside in quotes. */

/** Lines of cells; a line end at the very end is none of its own. Quotes count only where a cell begins with one. */
export const blockOf = (text: string): readonly (readonly string[])[] => {
  const lines: string[][] = [[]];
  let cell = "";
  let isQuoted = false;
  const endCell = (): void => {
    lines.at(-1)?.push(cell);
    cell = "";
  };
  const plain = text.replace(/\r\n?/g, "\n").replace(/\n$/, "");
  for (let index = 0; index < plain.length; index += 1) {
    const sign = plain[index] ?? "";
    if (isQuoted) {
      if (sign !== '"') cell += sign;
      else if (plain[index + 1] === '"') {
        cell += '"';
        index += 1;
      } else isQuoted = false;
    } else if (sign === '"' && cell === "" && /^"(?:[^"]|"")*"(?:[\t\n]|$)/.test(plain.slice(index))) isQuoted = true;
    else if (sign === "\t") endCell();
    else if (sign === "\n") {
      endCell();
      lines.push([]);
    } else cell += sign;
  }
  endCell();
  return lines;
};
