/** A sentence whose dates stay whole: a line may end before "2031-06-16", and not within it. */
import { Fragment } from "react";
import "./sentence.css";

const DATE = /(\d{4}-\d\d-\d\d(?: \d\d:\d\d(?: UTC)?)?)/u;

/** One element, so that it stays one line of text in whatever holds it. */
export const Sentence = ({ words }: { words: string }) =>
  words === "" ? null : (
    <span>
      {
        // Split at what is caught, every second part is a date.
        words.split(DATE).map((part, index) =>
          index % 2 === 1 ? (
            // eslint-disable-next-line react/no-array-index-key -- parts of one text, which are made anew with it
            <span key={index} className="whole-date">
              {part}
            </span>
          ) : (
            // eslint-disable-next-line react/no-array-index-key -- as above
            <Fragment key={index}>{part}</Fragment>
          ),
        )
      }
    </span>
  );
