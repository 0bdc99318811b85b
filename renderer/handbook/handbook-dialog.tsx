/** The handbook over the page: its list, a search, and one page, which can be printed or saved as PDF. */
import { useEffect, useRef, useState } from "react";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { findInPages } from "./find-in-pages.ts";
import { Markdown } from "./markdown.tsx";
import { type PageId, pages, targetOf } from "./pages.ts";
import "./handbook.css";

interface Place {
  readonly page: PageId;
  readonly heading: string | null;
}

const asDialog =
  (firstPage: PageId | "of the view") =>
  ({ close }: DialogProps) => <Handbook firstPage={firstPage} close={close} />;

/** Opens at the page of the view that is shown. */
export const ViewHelpDialog = asDialog("of the view");
export const HandbookDialog = asDialog("begin");
export const NewsDialog = asDialog("whats-new");

const Handbook = ({ firstPage, close }: { firstPage: PageId | "of the view"; close: () => void }) => {
  const session = useSession();
  const [place, setPlace] = useState<Place>(() => ({
    page: firstPage === "of the view" ? session.store.get().view : firstPage,
    heading: null,
  }));
  const [question, setQuestion] = useState("");
  const sheet = useRef<HTMLElement>(null);
  useEffect(() => {
    const heading = place.heading === null ? null : document.getElementById(`handbook-${place.heading}`);
    if (heading !== null) heading.focus();
    else sheet.current?.scrollTo(0, 0);
  }, [place]);
  const page = pages.find(({ id }) => id === place.page);
  const found = findInPages(pages, question);
  const print = async (): Promise<void> => {
    const reply = await session.client.host.print();
    if (!reply.ok) session.fail(reply.failure);
  };
  return (
    <Dialog title="Handbook" width="broad" onClose={close}>
      <div className="handbook">
        <nav className="handbook-list" aria-label="Pages of the handbook">
          <input
            type="search"
            className="handbook-find"
            aria-label="Find in the handbook"
            placeholder="find"
            value={question}
            onChange={({ target }) => setQuestion(target.value)}
          />
          {question.trim() === "" ? (
            <ul>
              {pages.map(({ id, title }) => (
                <li key={id}>
                  <button
                    type="button"
                    className="handbook-link"
                    aria-current={id === place.page ? "page" : undefined}
                    onClick={() => setPlace({ page: id, heading: null })}
                  >
                    {title}
                  </button>
                </li>
              ))}
            </ul>
          ) : (
            <ul aria-label="Found">
              {found.map(({ page: id, heading, title, line }) => (
                <li key={`${id}#${heading ?? ""}`}>
                  <button type="button" className="handbook-link" onClick={() => setPlace({ page: id, heading })}>
                    {title}
                  </button>
                  <span className="handbook-line">{line}</span>
                </li>
              ))}
              {found.length === 0 && <li>Nothing in the handbook has these words.</li>}
            </ul>
          )}
        </nav>
        {/* eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- longer than a small window: keys must scroll it */}
        <article ref={sheet} className="handbook-page" tabIndex={0} aria-label={page?.title}>
          {page !== undefined && (
            <Markdown
              text={page.text}
              onFollow={(href) => {
                const target = targetOf(href);
                if (target !== null) setPlace(target);
              }}
            />
          )}
        </article>
      </div>
      <p className="handbook-tools">
        <Button look="quiet" onPress={() => void print()}>
          Print this page or save it as PDF…
        </Button>
      </p>
    </Dialog>
  );
};
