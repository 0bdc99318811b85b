/** Where the project under test stands. */
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("../../..", import.meta.url)).replace(/\/$/, "");
