/** Progress on the error output: one line that is overwritten on a terminal, a line a change of words elsewhere. */

export interface ProgressLine {
  show(share: number | null, words: string): void;
  /** Clears the line. */
  end(): void;
}

export const progressLine = (write: (text: string) => void, isTerminal: boolean): ProgressLine => {
  let said = "";
  return {
    show: (share, words) => {
      const percent = share === null ? "" : ` ${Math.floor(share * 100)} %`;
      if (isTerminal) write(`\r\u001b[K${words}${percent}`);
      else if (words !== said) write(`${words} …\n`);
      said = words;
    },
    end: () => {
      if (isTerminal && said !== "") write("\r\u001b[K");
      said = "";
    },
  };
};
