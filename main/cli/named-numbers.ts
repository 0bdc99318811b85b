/** Options that give numbers to names: "oxygen=200, hydrogen=50". */
import { PlanningError } from "../../app/ground/failure.ts";
import { typedNumber } from "./typed-number.ts";

interface Named {
  readonly id: string;
  readonly name: string;
}

/** Throws "invalid input" and "not found", naming the option. `what`: what is named; `unit`: of the numbers; `example`: one to show. */
export const namedNumbers = (
  text: string | undefined,
  among: readonly Named[],
  option: string,
  what: string,
  unit: string,
  example: string,
): readonly { readonly id: string; readonly value: number }[] =>
  (text ?? "")
    // A comma within a number parts nothing.
    .split(/,(?=[^,]*=)/)
    .map((part) => part.trim())
    .filter((part) => part !== "")
    .map((part) => {
      const equalsAt = part.lastIndexOf("=");
      const wanted = part.slice(0, equalsAt).trim();
      const words = `${option} is a ${what}, = and a number: ${example}.`;
      const value = typedNumber(part.slice(equalsAt + 1), unit, option, words);
      if (equalsAt < 1 || value < 0) throw new PlanningError("invalid input", words, option);
      const found = among.find(({ id, name }) => id === wanted || name.toLowerCase() === wanted.toLowerCase());
      if (found === undefined) throw new PlanningError("not found", `There is no ${what} "${wanted}".`, option);
      return { id: found.id, value };
    });
