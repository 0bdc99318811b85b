/**
 * Imported first of all: the checker of forms would else try, as soon as a rule is made, to compile it as script, which
 * the page's content policy refuses aloud.
 */
import { config } from "zod";

config({ jitless: true });
