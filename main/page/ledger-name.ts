/** File names of ledgers. */
import { existsSync } from "node:fs";
import { join } from "node:path";

export const LEDGER_ENDING = ".coldstock";

/** Names that one system or another keeps for devices; a file of such a name cannot be opened there. */
const DEVICE = /^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])$/iu;

/** A file name made of a programme's name or a file's: letters and digits of any script, spaces and a few marks. */
export const ledgerFileName = (name: string): string => {
  const plain = name
    .normalize("NFC")
    .replace(/\.(coldstock|json)$/iu, "")
    .replaceAll(/[^\p{L}\p{N} _()-]/gu, " ")
    .replaceAll(/\s+/gu, " ")
    .trim()
    .slice(0, 60)
    .trim();
  if (plain === "") return `Ledger${LEDGER_ENDING}`;
  return `${plain}${DEVICE.test(plain) ? " ledger" : ""}${LEDGER_ENDING}`;
};

/** What a copy of a ledger is called if nothing else is said. */
export const copyName = (fileName: string): string =>
  ledgerFileName(`${fileName.slice(0, 53).replace(/\.coldstock$/iu, "")} copy`);

/** A path in the folder that is not taken yet: "Tarn.coldstock", else "Tarn 2.coldstock" and so on. */
export const freePath = (folder: string, fileName: string): string => {
  const stem = fileName.slice(0, -LEDGER_ENDING.length);
  for (let n = 1; ; n += 1) {
    const path = join(folder, n === 1 ? fileName : `${stem} ${n}${LEDGER_ENDING}`);
    if (!existsSync(path)) return path;
  }
};
