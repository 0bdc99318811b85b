/** How modules are put together into the programs that ship, beyond what the bundler does by itself; the benches bundle alike. */

/**
 * Constants stay constants, and are written in where they are used, in other modules too. By itself the bundler makes
 * variables of them, which the engine's loop then reads, and checks, at each step: 8 % of a forecast's time.
 */
export const constants = {
  optimization: { inlineConst: { mode: "all", pass: 3 } },
  output: { topLevelVar: false },
} as const;
