/**
 * What a new migration step leaves to be kept: a ledger of the new form with its text, the exported document of it, the
 * step's hash, and the texts of the older ledgers as they are exported today. What is kept already is never made again but
 * for the texts. Run by hand, once a form.
 */
import { createHash } from "node:crypto";
import { copyFileSync, existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { documentText } from "../../../app/exchange/ledger-document.ts";
import { openLedger } from "../../../db/ledger.ts";
import { newestVersion, readMigrations } from "../../../db/migrate.ts";
import { makeKept } from "./kept-ledger.ts";

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const steps = readMigrations();
const form = newestVersion(steps);

const put = (path: string, text: string): void => {
  if (existsSync(path) && readFileSync(path, "utf8") === text) return;
  writeFileSync(path, text);
  console.log(`wrote ${path}`);
};

const keepHashes = (): void => {
  const path = here("../../../db/migrations/shipped.json");
  const shipped = JSON.parse(readFileSync(path, "utf8")) as Record<string, string>;
  for (const { file, sql } of steps) shipped[file] ??= createHash("sha256").update(sql).digest("hex");
  put(path, `${JSON.stringify(shipped, null, 2)}\n`);
};

const renewTexts = (): void => {
  const folder = mkdtempSync(join(tmpdir(), "coldstock-kept-"));
  for (const file of readdirSync(here(".")).filter((name) => name.endsWith(".coldstock"))) {
    const copy = join(folder, file);
    copyFileSync(here(file), copy);
    const store = openLedger(copy);
    put(here(`${file}.txt`), documentText(store.document()));
    store.close();
  }
  rmSync(folder, { recursive: true, force: true });
};

keepHashes();
const kept = here(`form-${form}.coldstock`);
if (!existsSync(kept)) makeKept(kept);
renewTexts();
const document = here(`../../app/exchange/released/form-${form}.json`);
if (!existsSync(document)) put(document, readFileSync(`${kept}.txt`, "utf8"));
