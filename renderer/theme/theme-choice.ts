/** The choice between light, dark and what the system says: kept in the page's storage, set on the root element. */

export const themeChoices = ["system", "light", "dark"] as const;
export type ThemeChoice = (typeof themeChoices)[number];

const KEY = "coldstock.theme";

/** What was chosen before; "system" where nothing was. */
export const storedTheme = (): ThemeChoice => {
  const stored = localStorage.getItem(KEY);
  return themeChoices.find((choice) => choice === stored) ?? "system";
};

/** Shows the page in the chosen theme and remembers it. */
export const applyTheme = (choice: ThemeChoice): void => {
  localStorage.setItem(KEY, choice);
  if (choice === "system") delete document.documentElement.dataset["theme"];
  else document.documentElement.dataset["theme"] = choice;
};
