/** What is asked about where it is typed, and what is not. */
import { describe, expect, it } from "vitest";
import { nameDoubt } from "../../../renderer/editing/bound-fields.tsx";
import { instantDoubt } from "../../../renderer/widgets/instant-field.tsx";

const others = [
  { id: "a", name: "Packhorse 4" },
  { id: "b", name: "Drover 1" },
];

describe("a name", () => {
  it.each(["Packhorse 4", "packhorse 4", "Pack-horse 04", " Packhorse  4 "])("%j is asked about", (name) =>
    expect(nameDoubt(name, "new", others)).toContain("Packhorse 4"),
  );
  it.each(["Packhorse 5", "Packhorse 14", "", "  "])("%j is not", (name) =>
    expect(nameDoubt(name, "new", others)).toBeNull(),
  );
  it("may be its own", () => expect(nameDoubt("Packhorse 4", "a", others)).toBeNull());
});

describe("a date", () => {
  it.each(["1899-12-31", "1900-01-01", "3031-02-20"])("in the year of %s is asked about", (date) =>
    expect(instantDoubt(Date.parse(date))).toContain(date.slice(0, 4)),
  );
  // The first satellite flew in 1957 (fact of the trade): records may be of any year since.
  it.each(["1957-10-04", "2031-02-20", "2199-12-31"])("%s is not", (date) =>
    expect(instantDoubt(Date.parse(date))).toBeNull(),
  );
});
