/** The report as one self-contained page: no script, nothing fetched, light and dark, fit to print. */
import { missingCase } from "../../ground/missing-case.ts";
import { escapeMarkup } from "../../format/markup.ts";
import type { Block, Cell, ReportModel, Table } from "../model.ts";
import { inkVariables, nightColours, type PaperInk, paperColours } from "../../picture/paper-theme.ts";
import { toInlineSvg } from "../../picture/svg.ts";
import { cellForPeople, headingOf } from "./cell-text.ts";
import { onPaper } from "./on-paper.ts";
import { subtitle } from "./subtitle.ts";

/** The whole file. */
export const reportToHtml = (whole: ReportModel): string => pageOf(onPaper(whole));

const pageOf = (report: ReportModel): string =>
  `<!doctype html>\n<html lang="en-GB"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">` +
  `<title>${escapeMarkup(report.title)}</title><style>${STYLE}</style></head><body><main>` +
  `<header><h1>${escapeMarkup(report.title)}</h1><p>${escapeMarkup(subtitle(report))}</p>${contents(report)}</header>` +
  report.sections
    .map(
      (section) =>
        `<section id="${section.id}"><h2>${escapeMarkup(section.title)}</h2>${section.blocks.map((block) => blockToHtml(block, report)).join("")}</section>`,
    )
    .join("") +
  "</main></body></html>\n";

const contents = (report: ReportModel): string =>
  `<nav aria-label="Sections"><ol>${report.sections.map((section) => `<li><a href="#${section.id}">${escapeMarkup(section.title)}</a></li>`).join("")}</ol></nav>`;

const blockToHtml = (block: Block, report: ReportModel): string => {
  switch (block.kind) {
    case "paragraph":
      return `<p>${escapeMarkup(block.text)}</p>`;
    case "list":
      return `<ul>${block.items.map((item) => `<li>${escapeMarkup(item)}</li>`).join("")}</ul>`;
    case "verdict":
      return (
        `<p class="verdict ${block.holds ? "holds" : "fails"}"><strong>${escapeMarkup(block.word)}</strong> ${escapeMarkup(block.sentence)}</p>` +
        (block.chance === undefined
          ? ""
          : `<p class="chance"><strong>${escapeMarkup(block.chance.figure)}</strong> ${escapeMarkup(block.chance.words)}</p>`)
      );
    case "facts":
      return `<dl>${block.items.map(({ term, text }) => `<div><dt>${escapeMarkup(term)}</dt><dd>${escapeMarkup(text)}</dd></div>`).join("")}</dl>`;
    case "caution":
      return `<p class="caution">${escapeMarkup(block.text)}</p>`;
    case "chart":
      return `<figure id="${escapeMarkup(block.id)}">${toInlineSvg(block.picture, `${block.caption}. ${block.description}`, inkVariables, `${block.id}-`)}<figcaption><strong>${escapeMarkup(block.caption)}.</strong> ${escapeMarkup(block.description)}</figcaption></figure>`;
    case "table":
      return tableToHtml(block, report);
    default:
      return missingCase(block);
  }
};

const tableToHtml = (table: Table, report: ReportModel): string =>
  `<table role="table" id="${escapeMarkup(table.id)}"><caption>${escapeMarkup(table.caption)}</caption><thead role="rowgroup"><tr role="row">${table.columns
    .map(
      (column) =>
        `<th scope="col" role="columnheader" class="${column.align}">${escapeMarkup(headingOf(column, report.massUnit))}</th>`,
    )
    .join("")}</tr></thead><tbody role="rowgroup">${table.rows
    .map(
      (row, rowIndex) =>
        `<tr role="row"${markOf(table, rowIndex)}>${row.map((cell, index) => cellToHtml(cell, index, table, report)).join("")}</tr>`,
    )
    .join("")}</tbody></table>`;

const markOf = ({ marks }: Table, row: number): string => {
  const mark = marks?.find((each) => each.row === row);
  return mark === undefined ? "" : ` class="${mark.as}"`;
};

/** The words of a cell, a link where it leads to a block that this report has. */
const cellWords = (cell: Cell, { sections, massUnit }: ReportModel): string => {
  const words = escapeMarkup(cellForPeople(cell, massUnit));
  const to = cell.kind === "text" ? cell.to : undefined;
  const isThere = sections.some(({ blocks }) => blocks.some((block) => "id" in block && block.id === to));
  return to !== undefined && isThere ? `<a href="#${escapeMarkup(to)}">${words}</a>` : words;
};

/** A date or a short name is not broken at its hyphen or space. */
const LONGEST_WHOLE = 12;

/**
 * The first words of a row head it. Each other cell bears its column's heading, which stands beside it where the window is
 * too narrow for columns; the roles say that it is a table still.
 */
const cellToHtml = (cell: Cell, index: number, table: Table, report: ReportModel): string => {
  const column = table.columns[index];
  const isWhole = cellForPeople(cell, report.massUnit).length <= LONGEST_WHOLE;
  const align = `${column?.align ?? "start"}${isWhole ? " whole" : ""}`;
  const words = cellWords(cell, report);
  if (index === 0 && cell.kind === "text" && cell.text !== "")
    return `<th scope="row" role="rowheader" class="${align}">${words}</th>`;
  const heading = column === undefined ? "" : escapeMarkup(headingOf(column, report.massUnit));
  return `<td role="cell" class="${align}" data-heading="${heading}">${words}</td>`;
};

const inkRules = (colours: Readonly<Record<PaperInk, string>>): string =>
  Object.entries(colours)
    .map(([ink, colour]) => `--${ink}:${colour};`)
    .join("");

const STYLE =
  `:root{color-scheme:light dark;${inkRules(paperColours)}}@media screen and (prefers-color-scheme:dark){:root{${inkRules(nightColours)}}}` +
  "body{margin:0;overflow-wrap:anywhere;background:var(--ground);color:var(--text);font:15px/1.5 'Atkinson Hyperlegible Next',system-ui,sans-serif}" +
  "main{max-width:60rem;margin:0 auto;padding:32px 24px}h1{font-size:1.5rem;margin:0}h2{font-size:1.1875rem;margin:32px 0 8px;border-bottom:1px solid var(--hairline)}" +
  // A word in a table is broken only where it is wider than the page: broken anywhere, columns shrink to a letter.
  "header p{color:var(--quiet)}a{color:inherit}table{overflow-wrap:break-word;border-collapse:collapse;width:100%;font-size:.8125rem;font-variant-numeric:tabular-nums}" +
  "caption{text-align:start;color:var(--quiet);padding:4px 0}th,td{padding:4px 8px;border-bottom:1px solid var(--hairline);text-align:start;vertical-align:top}" +
  "thead th{font-weight:600;vertical-align:bottom}tbody th{font-weight:400}.end{text-align:end}td.end,.whole{white-space:nowrap}figure{margin:16px 0;break-inside:avoid;overflow:hidden}figcaption{color:var(--quiet);font-size:.8125rem}svg{width:100%;height:auto}" +
  ".verdict strong{font-size:1.5rem;display:block}.fails strong{color:var(--warning)}.chance strong{font-size:1.1875rem}dl{margin:16px 0}dl div{display:grid;grid-template-columns:minmax(6rem,9rem) 1fr;gap:0 16px;padding:4px 0}dt{color:var(--quiet)}dd{margin:0;white-space:pre-line}" +
  "tr.warning>*{font-weight:600}tr.warning>:first-child{box-shadow:inset 3px 0 var(--warning)}tr.total>*{font-weight:600;border-top:1px solid var(--text)}" +
  ".caution{border:1px solid var(--warning);padding:12px 16px}@page{margin:16mm 15mm}@media print{main{max-width:none;padding:0}nav{display:none}table{font-size:.625rem}th,td{padding:3px}section{break-inside:auto}h2,caption,thead{break-after:avoid}thead{display:table-header-group}tr{break-inside:avoid}}" +
  // Too narrow for columns: each row becomes a short list, headings beside the figures.
  "@media screen and (max-width:640px){main{padding:16px 12px}dl div{grid-template-columns:1fr}thead{display:none}table,tbody,tr,tbody th,td{display:block}caption{display:block}tr{padding:8px 0;border-bottom:1px solid var(--hairline)}tr.warning{padding-inline-start:8px;box-shadow:inset 3px 0 var(--warning)}tr.warning>:first-child{box-shadow:none}tr.total{border-top:1px solid var(--text)}tr.total>*{border-top:0}tbody th,td{border:0;padding:1px 0}tbody th{font-weight:600}td{display:flex;justify-content:space-between;gap:16px;text-align:end;white-space:normal}td::before{content:attr(data-heading);color:var(--quiet);text-align:start;font-weight:400}td:empty{display:none}}";
