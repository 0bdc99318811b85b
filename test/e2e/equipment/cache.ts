/** Where test equipment is kept between runs: the user's cache folder, outside the project. */
import { homedir } from "node:os";
import { join } from "node:path";

export const equipmentCache = (): string => {
  const set = process.env["XDG_CACHE_HOME"];
  return join(set !== undefined && set !== "" ? set : join(homedir(), ".cache"), "coldstock-test-equipment");
};
