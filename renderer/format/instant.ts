/** Instants as they are written everywhere. */
export * from "../../app/format/instant.ts";
