/** `views`: SQL for whoever reads ledgers with a program of their own. */
import { VIEWS } from "../../../db/views.ts";
import { writeOut } from "../../page/write-out.ts";
import { type CliCommand, placeOf } from "../cli-command.ts";

export const viewsCommand = {
  name: "views",
  summary: "Write views in SQL for reading a ledger with a program of your own: levels, losses, planned beside actual",
  examples: [
    {
      line: "views --to views.sql",
      does: 'then: sqlite3 -readonly -init views.sql tarn.coldstock "SELECT * FROM flight_view"',
    },
  ],
  declare: (command) => {
    command
      .option("--to <file>", "where to write it (default, and -: standard output)")
      .option("--replace", "write over a file that stands there already");
  },
  act: async (_desk, _given, options) => {
    const to = placeOf(options, null);
    if (to === null) return await Promise.resolve({ holds: true, json: { sql: VIEWS }, text: VIEWS.trimEnd() });
    writeOut(to.path, VIEWS, to);
    return { holds: true, json: { written: to.path }, text: `Wrote ${to.path}.` };
  },
} satisfies CliCommand;
