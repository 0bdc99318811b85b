/** Draws a chart's picture on the page as vectors, scaled to the page's width, with its caption. */
import type { Block } from "../../app/report/model.ts";
import { paperColours } from "../../app/report/picture/colour.ts";
import type { Shape } from "../../app/report/picture/picture.ts";
import { type Doc, type Page, forFont, keepTogether, markTarget, tag } from "./pdf-page.ts";

type Chart = Extract<Block, { readonly kind: "chart" }>;

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
        for (const shape of chart.picture.shapes) drawShape(doc, shape);
        doc.restore();
      },
    ),
  );
  doc.x = left;
  doc.y = top + height + 10;
};

const drawShape = (doc: Doc, shape: Shape): void => {
  if (shape.kind === "text") {
    doc
      .font(shape.isBold ? "bold" : "regular")
      .fontSize(shape.size)
      .fillColor(paperColours[shape.ink]);
    const words = forFont(shape.text);
    const shift = shape.anchor === "start" ? 0 : doc.widthOfString(words) / (shape.anchor === "end" ? 1 : 2);
    // pdfkit puts the top of the line at y; the shape's y is the baseline.
    doc.text(words, shape.x - shift, shape.y, { baseline: "alphabetic", lineBreak: false });
    return;
  }
  doc.save().path(shape.path).lineWidth(shape.width).lineJoin("round");
  if (shape.dash.length > 0) doc.dash(shape.dash[0] ?? 1, { space: shape.dash[1] ?? shape.dash[0] ?? 1 });
  if (shape.fill) doc.fillOpacity(shape.fillOpacity);
  if (shape.fill && shape.stroke) doc.fillAndStroke(paperColours[shape.fill], paperColours[shape.stroke]);
  else if (shape.fill) doc.fill(paperColours[shape.fill]);
  else if (shape.stroke) doc.stroke(paperColours[shape.stroke]);
  doc.restore();
};
