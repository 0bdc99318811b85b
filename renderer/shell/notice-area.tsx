/** Where the page says what went wrong or what should be known; information leaves by itself, the rest when dismissed. */
import { useEffect } from "react";
import type { Notice as NoticeRow } from "../state/app-state.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { Notice } from "../widgets/notice.tsx";

const INFORMATION_STAYS_MS = 8000;

export const NoticeArea = () => {
  const notices = useApp((state) => state.notices);
  return (
    <section className="notices" aria-label="Notices">
      {notices.map((notice) => (
        <NoticeRowShown key={notice.id} notice={notice} />
      ))}
    </section>
  );
};

const NoticeRowShown = ({ notice }: { notice: NoticeRow }) => {
  const { dismiss } = useSession();
  useEffect(() => {
    if (notice.tone !== "information") return undefined;
    const timer = setTimeout(() => dismiss(notice.id), INFORMATION_STAYS_MS);
    return () => clearTimeout(timer);
  }, [notice, dismiss]);
  return (
    <Notice tone={notice.tone}>
      <span className="notice-words">{notice.words}</span>
      <Button look="quiet" onPress={() => dismiss(notice.id)}>
        Dismiss
      </Button>
    </Notice>
  );
};
