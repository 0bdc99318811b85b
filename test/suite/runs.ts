/** How many random cases a property is tried on: few in a plain run, as many as `COLDSTOCK_RUNS` says in a long one. */

/** `plain`: how many find what such a property finds from one change of the program to the next. */
export const runs = (plain: number): number => {
  const asked = Number(process.env["COLDSTOCK_RUNS"] ?? Number.NaN);
  return asked > 0 ? Math.round(asked) : plain;
};
