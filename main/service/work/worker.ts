/** The program of a thread. */
import { serve } from "./serve-thread.ts";
import { workOf } from "./works.ts";

serve(workOf);
