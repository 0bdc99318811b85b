/** The kinds of file that a page may hand over to be written: what a dialog calls them, and their ending. */

export const fileTypes = {
  "application/pdf": { words: "Pages (PDF)", ending: "pdf" },
  "text/html": { words: "Page for a browser (HTML)", ending: "html" },
  "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet": { words: "Workbook (XLSX)", ending: "xlsx" },
  "text/calendar": { words: "Calendar (ICS)", ending: "ics" },
  "text/csv": { words: "Table (CSV)", ending: "csv" },
  "image/png": { words: "Picture (PNG)", ending: "png" },
  "image/svg+xml": { words: "Drawing (SVG)", ending: "svg" },
} as const;

export type FileType = keyof typeof fileTypes;
export const fileTypeNames = Object.keys(fileTypes) as [FileType, ...FileType[]];
