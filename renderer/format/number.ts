/** Numbers as they are written everywhere. */
export * from "../../app/format/number.ts";
