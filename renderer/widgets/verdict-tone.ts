/** The tone of a verdict: which of the status colours its word bears. The word itself says it; colour only repeats it. */
import type { Verdict } from "../../app/supply/answer.ts";
import { missingCase } from "../../app/ground/missing-case.ts";

export const verdictTone = ({ word }: Verdict): "go" | "if" | "no-go" | "none" => {
  switch (word) {
    case "Go":
      return "go";
    case "Go, if":
      return "if";
    case "No-go":
    case "No verdict":
      return "no-go";
    case "Nothing to judge":
      return "none";
    default:
      return missingCase(word);
  }
};
