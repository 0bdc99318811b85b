/** Documents as the program of each released form exported them: read for ever, with nothing lost of what they say. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { entityKinds, entitySchemas } from "../../../app/entity/entities.ts";
import { DOCUMENT_FORM } from "../../../app/exchange/document-form.ts";
import { documentText, parseDocument } from "../../../app/exchange/ledger-document.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { newestVersion, readMigrations } from "../../../db/migrate.ts";
import { temporaryFolder } from "../records/hand-ledger.ts";

const folder = temporaryFolder();
const KEPT = fileURLToPath(new URL("./released/", import.meta.url));
const kept = readdirSync(KEPT).filter((file) => file.endsWith(".json"));

test("the form that a document names is that of the newest migration step, and a document of it is kept", () => {
  expect(DOCUMENT_FORM).toBe(newestVersion(readMigrations()));
  // To keep one: the text that test/db/released/keep.ts wrote beside its file, under this name. Never renewed.
  expect(kept).toContain(`form-${DOCUMENT_FORM}.json`);
});

test.each(kept)("%s is read, and what it says is all there", (file) => {
  const text = readFileSync(join(KEPT, file), "utf8");
  const store = loadDocument(join(folder, `${file}.coldstock`), parseDocument(text));
  expect(store.verify()).toMatchObject({ isSound: true, faults: [] });
  const { form: _form, ...said } = JSON.parse(text) as Record<string, unknown>;
  const now = JSON.parse(documentText(store.document())) as Record<string, unknown>;
  expect(now).toMatchObject(said);
  store.close();
});

/** From this form on the edit history keeps differences, which are known again by whole rows in their order. */
const FIRST_DIFFERENCES = 110;

test.each(kept.filter((file) => Number(/\d+/.exec(file)?.[0]) >= FIRST_DIFFERENCES))(
  "what rows were given since %s stands at their end, where the edit history looks for it",
  (file) => {
    const { entities } = JSON.parse(readFileSync(join(KEPT, file), "utf8")) as { entities: Record<string, object[]> };
    for (const kind of entityKinds) {
      const said = Object.keys(entities[kind]?.[0] ?? {});
      expect(Object.keys(entitySchemas[kind].shape).slice(0, said.length)).toEqual(said);
    }
  },
);

test("a document of a newer form is refused as newer, whatever it holds", () => {
  const document = JSON.parse(readFileSync(join(KEPT, `form-${DOCUMENT_FORM}.json`), "utf8")) as object;
  const newer = JSON.stringify({ ...document, form: DOCUMENT_FORM + 10, somethingNew: [] });
  expect(() => parseDocument(newer)).toThrow(
    `exported by a newer version of this program (form ${DOCUMENT_FORM + 10}; this program knows ${DOCUMENT_FORM})`,
  );
});
