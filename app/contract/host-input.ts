/** What a host accepts from its page beside the contract: parsed at the host's door, as the contract is at the service's. */
import { z } from "zod";
import { type ActionId, actions } from "./actions.ts";
import { fileTypeNames } from "../ground/file-types.ts";
import { label } from "../ground/quantity.ts";
import { mergeChoicesInput } from "../merge/merge-choices.ts";

/** Text that a page may hand over or be handed: at most 64 MB. */
export const MAX_TEXT = 64_000_000;

/** A file's bytes as they cross: at most 72 MB, written in base64. */
const MAX_BASE64 = 96_000_000;

const textKind = z.enum(["json", "csv"]);
const fileName = z.string().regex(/^[^\\/:*?"<>|\p{Cc}]{1,120}$/u, "a file name without folder");
const actionIds = actions.map((action) => action.id) as [ActionId, ...ActionId[]];

export const hostInputs = {
  ledgers: z.tuple([]),
  openLedger: z.tuple([z.uuid()]),
  pickLedger: z.tuple([]),
  createLedger: z.tuple([label, z.enum(["tarn", "beck"]).optional()]),
  openDemonstration: z.tuple([z.enum(["tarn", "beck"])]),
  importLedger: z.tuple([]),
  saveCopy: z.tuple([]),
  pickRows: z.tuple([]),
  /** What crosses is the path, which the preload script found for the file; the page never has it. */
  holdDropped: z.tuple([z.string().min(1, "This file has no place on the disk: save it first.").max(4096)]),
  importHeld: z.tuple([z.uuid()]),
  readHeld: z.tuple([z.uuid()]),
  pickOther: z.tuple([]),
  /** The last: a job id, as of {@link Bridge.call}. */
  previewMerge: z.tuple([z.uuid(), mergeChoicesInput, z.string().min(1).max(80)]),
  takeMerge: z.tuple([z.uuid(), mergeChoicesInput, z.string().max(1000)]),
  saveText: z.tuple([textKind, fileName, z.string().max(MAX_TEXT)]),
  saveFile: z.tuple([fileName, z.enum(fileTypeNames), z.base64().max(MAX_BASE64)]),
  print: z.tuple([]),
  copyText: z.tuple([z.string().max(MAX_TEXT)]),
  copyPicture: z.tuple([z.base64().max(MAX_TEXT)]),
  showActions: z.tuple([
    z
      .array(
        z.strictObject({
          id: z.enum(actionIds),
          isEnabled: z.boolean(),
          isOn: z.boolean(),
          label: z.string().max(200).nullable(),
        }),
      )
      .max(actions.length),
  ]),
  showTheme: z.tuple([z.enum(["system", "light", "dark"])]),
} as const;

export type HostMethod = keyof typeof hostInputs;
export type HostInput<M extends HostMethod> = z.infer<(typeof hostInputs)[M]>;
