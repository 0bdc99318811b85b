/** A thread's program with computations made for the tests of the pool. */
import { serve } from "../../../../main/service/work/serve-thread.ts";
import { findTrial } from "./trial-works.ts";

serve(findTrial);
