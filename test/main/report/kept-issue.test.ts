/**
 * An issue of the time before screen and paper had one picture prints to the same bytes as on its day. The issue and the
 * sums were written by the program of form 170; they are never made again.
 */
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { inflateSync } from "node:zlib";
import { expect, test } from "vitest";
import { parseFinished } from "../../../app/report/finished.ts";
import { reportToHtml } from "../../../app/report/format/html.ts";
import { reportToPdf } from "../../../main/report/pdf.ts";

const kept = readFileSync(new URL("../../app/report/released/issue-170.txt", import.meta.url), "utf8");

const sum = (bytes: string | Buffer): string => createHash("sha256").update(bytes).digest("hex");

/** Streams as they were before they were packed: how small they are made is the machine's affair. */
const unpacked = (pdf: Buffer): Buffer =>
  Buffer.from(
    pdf.toString("latin1").replaceAll(/stream\r?\n([\s\S]*?)\r?\nendstream/g, (whole, body: string) => {
      try {
        return inflateSync(Buffer.from(body, "latin1")).toString("latin1");
      } catch {
        return whole;
      }
    }),
    "latin1",
  );

test("its pictures of all kinds are read, and none is lost", () => {
  const charts = parseFinished(kept).report.sections.flatMap(({ blocks }) =>
    blocks.filter((block) => block.kind === "chart"),
  );
  expect(charts.map(({ id }) => id)).toEqual([
    "campaign",
    "level-tarn-hydrogen",
    "losses-chart-tarn-hydrazine",
    "sortie-1-mass",
    "ways-break-even",
    "ways-break-even-inputs",
    "plane",
    "map",
    "curve",
    "moves",
  ]);
  for (const { picture } of charts) expect(picture.groups[0]?.shapes.length).toBeGreaterThan(5);
});

test("page and PDF are the same to the byte", async () => {
  const { report } = parseFinished(kept);
  expect(sum(reportToHtml(report))).toBe("1612f79751b224ec2b50eaf9b3706467d68b6f202a42dcba6fc63b2d9f06c114");
  expect(sum(unpacked(await reportToPdf(report, () => undefined)))).toBe(
    "eb4c39d09407d709ce67a0ff08555427fb9c8ee54ce9680d029f2eece93141f3",
  );
});

test("what is no shape of a picture is refused, in the old form and in the new", () => {
  const spoiled = (from: string, to: string): string => {
    expect(kept).toContain(from);
    return kept.replace(from, to);
  };
  expect(() => parseFinished(spoiled('"path":"M', '"path":"url(#x)M'))).toThrow(/cannot be printed/);
  expect(() => parseFinished(spoiled('"stroke":"hairline"', '"stroke":"accent"'))).toThrow(/cannot be printed/);
  expect(() => parseFinished(spoiled('"shapes":[', '"groups":['))).toThrow(/cannot be printed/);
});
