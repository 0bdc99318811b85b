/** The caution that reports, the about box, the command line's help and the README carry. */

export const CAUTION =
  "Coldstock is a planning aid, not a flight-certified product. Cryogens, oxygen enrichment, hydrogen and hypergolic " +
  "propellants can injure and kill. Decisions on loading, venting and flight belong to qualified people under the " +
  "programme's own safety process, range rules and local codes.";
