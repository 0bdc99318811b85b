/** Whose work is built in: each package with its licence's text, fetched when the list is opened. */
import { useState } from "react";
import "./built-in-list.css";

interface Notice {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  readonly text: string;
}

type Loaded = readonly Notice[] | "asking" | "failed" | null;

const fetchNotices = async (): Promise<readonly Notice[] | "failed"> => {
  try {
    const answer = await fetch("./notices.json");
    return answer.ok ? ((await answer.json()) as readonly Notice[]) : "failed";
  } catch {
    return "failed";
  }
};

const list = (notices: readonly Notice[]) => (
  <ul className="built-in-list">
    {notices.map(({ name, version, licence, text }) => (
      <li key={`${name}@${version}`}>
        <details>
          <summary>
            {name} {version} · {licence}
          </summary>
          <pre>{text === "" ? `The package brings no text of its own; its licence is ${licence}.` : text}</pre>
        </details>
      </li>
    ))}
  </ul>
);

export const BuiltInList = () => {
  const [loaded, setLoaded] = useState<Loaded>(null);
  const open = (): void => {
    if (loaded !== null && loaded !== "failed") return;
    setLoaded("asking");
    void fetchNotices().then(setLoaded);
  };
  return (
    <details className="built-in" onToggle={(event) => event.currentTarget.open && open()}>
      <summary>Whose work is built in, and under which licence</summary>
      {loaded === "asking" && <p>Reading the list…</p>}
      {loaded === "failed" && <p>The list could not be read. Close this and open it again.</p>}
      {Array.isArray(loaded) && list(loaded as readonly Notice[])}
    </details>
  );
};
