/** Draws a chart's picture on the page as vectors, scaled to the page's width, with its caption. */
import { paperColours } from "../../app/picture/paper-theme.ts";
import type { Chart } from "../../app/report/model.ts";
import { type Page, forFont, keepTogether, markTarget, tag } from "./pdf-page.ts";
import { drawShapes } from "./pdf-shape.ts";

/** Of the picture with its caption, points. */
export const pictureHeight = ({ width }: Page, { picture }: Chart): number =>
  (picture.height * width) / picture.width + 30;

export const drawPicture = (page: Page, chart: Chart): void => {
  const { doc, root, left, width } = page;
  const scale = width / chart.picture.width;
  const height = chart.picture.height * scale;
  keepTogether(page, pictureHeight(page, chart));
  markTarget(page, chart.id);
  root.add(
    doc.struct("P", {}, () => {
      doc.font("bold").fontSize(9.5).fillColor(paperColours.text).text(forFont(chart.caption), left, doc.y, { width });
    }),
  );
  const top = doc.y + 2;
  root.add(
    tag(
      page,
      "Figure",
      { alt: `${chart.caption}. ${chart.description}`, bbox: [left, top, left + width, top + height] },
      () => {
        doc.save().translate(left, top).scale(scale);
        drawShapes(doc, chart.picture);
        doc.restore();
      },
    ),
  );
  doc.x = left;
  doc.y = top + height + 10;
};
