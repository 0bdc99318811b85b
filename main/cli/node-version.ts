/** The Node that the ledger's database module runs on; an older one ends without a word when it is loaded. */

const LEAST_MAJOR = 22;

/** `version`: "20.11.1". null: it will do; else what to do, for a person. */
export const nodeRefusal = (version: string): string | null =>
  Number(version.split(".")[0]) >= LEAST_MAJOR
    ? null
    : `Coldstock needs Node ${LEAST_MAJOR} or newer, and this is Node ${version}. Install a newer Node and run the command again; from a checkout, "npm run cli -- …" brings its own.`;
