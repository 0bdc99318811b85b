/**
 * The form of the ledger that an exported document tells of: the number of the newest migration step when it was
 * written. Raised with every new step (a test says so), so that a document of a newer program is refused as newer and
 * not for a property that is unknown here.
 */
export const DOCUMENT_FORM = 170;
