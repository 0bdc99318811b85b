/** Masses as they are written everywhere. */
export * from "../../app/format/mass.ts";
