/** What marks a file as a ledger of ours. */

/** SQLite's application_id: "CSLG" in ASCII. */
export const APPLICATION_ID = 0x43534c47;
