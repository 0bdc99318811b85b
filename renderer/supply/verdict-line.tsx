/** The verdict at the head of the supply check: its word, large, and its sentence. */
import type { Verdict } from "../../app/supply/answer.ts";
import { Sentence } from "../widgets/sentence.tsx";
import { verdictTone } from "../widgets/verdict-tone.ts";

export const VerdictLine = ({ verdict }: { verdict: Verdict }) => (
  <p className="supply-standing" aria-label="Verdict">
    <strong className={`verdict-word verdict-${verdictTone(verdict)}`}>{verdict.word}</strong>{" "}
    <Sentence words={verdict.sentence} />
  </p>
);
