/** Takes a chart out of the program: to the clipboard as a picture, or into a file as PNG or SVG. */
import { captioned } from "../../app/picture/captioned.ts";
import type { Theme } from "../../app/picture/ink.ts";
import { readPaperTheme } from "../charts/chart-theme.ts";
import { measureIn, pngOf } from "../charts/png.ts";
import type { Picture } from "../../app/picture/shape.ts";
import { toSvg } from "../../app/picture/svg.ts";
import { formatInstant } from "../format/instant.ts";
import type { Session } from "../state/session.ts";
import type { ChartSource } from "./chart-list.ts";

/** What stands above the chart so that it can be read without the program beside it. */
const captionOf = (session: Session, { title, notes }: ChartSource) => {
  const { ledger, current } = session.store.get();
  const plan = current?.plan;
  const parts = [
    ...(ledger === null ? [] : [ledger.programme]),
    ...(plan === undefined ? [] : [`plan case ${plan.planCase.name}`, `as of ${formatInstant(plan.asOfAt)} UTC`]),
    ...notes,
  ];
  return { title, parts };
};

const onPaper = (session: Session, source: ChartSource): { picture: Picture; theme: Theme } => {
  const theme = readPaperTheme(document.body);
  const measure = measureIn(theme);
  return { picture: captioned(source.compose(measure), captionOf(session, source), measure), theme };
};

/** Letters and digits of the title and the as-of date: "loss-by-cause-tarn-hydrogen-2031-02-01.svg". */
export const chartFileName = (title: string, asOfAt: number | null, ending: "png" | "svg"): string => {
  const words = title
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, "-")
    .replaceAll(/^-+|-+$/g, "")
    .slice(0, 80);
  const date = asOfAt === null ? "" : `-${new Date(asOfAt).toISOString().slice(0, 10)}`;
  return `${words === "" ? "chart" : words}${date}.${ending}`;
};

/** What could not be drawn is said, not thrown. */
const saying = async (session: Session, work: () => Promise<void>): Promise<void> => {
  try {
    await work();
  } catch (error) {
    session.tell("warning", error instanceof Error ? error.message : "The chart could not be drawn.");
  }
};

export const copyChart = (session: Session, source: ChartSource): Promise<void> =>
  saying(session, async () => {
    const { picture, theme } = onPaper(session, source);
    const reply = await session.client.host.copyPicture(pngOf(picture, theme));
    if (reply.ok) session.tell("information", `Copied as a picture: ${source.title}.`);
    else session.fail(reply.failure);
  });

const base64Of = (text: string): string =>
  btoa(Array.from(new TextEncoder().encode(text), (byte) => String.fromCharCode(byte)).join(""));

export const saveChart = (session: Session, source: ChartSource, ending: "png" | "svg"): Promise<void> =>
  saying(session, async () => {
    const { picture, theme } = onPaper(session, source);
    const asOfAt = session.store.get().current?.plan.asOfAt ?? null;
    const name = chartFileName(source.title, asOfAt, ending);
    const { host } = session.client;
    const reply =
      ending === "png"
        ? await host.saveFile(name, "image/png", pngOf(picture, theme))
        : await host.saveFile(name, "image/svg+xml", base64Of(toSvg(picture, theme, source.title)));
    if (!reply.ok) session.fail(reply.failure);
    else if (reply.value !== null) session.tell("information", `${reply.value} was saved.`);
  });
