/** Markdown as elements of the page. Text stays text: what looks like HTML in it is shown, never made into elements. */
import { type ReactNode, createElement } from "react";
import { type MarkedToken, type Token, type Tokens, lexer } from "marked";
import { headingId } from "./pages.ts";

interface MarkdownProps {
  readonly text: string;
  /** Follows a link. */
  readonly onFollow: (href: string) => void;
}

type Follow = MarkdownProps["onFollow"];

export const Markdown = ({ text, onFollow }: MarkdownProps) => <>{blocks(lexer(text), onFollow)}</>;

// A page never changes while it is shown: the place of a token is its name.
const blocks = (tokens: readonly Token[], follow: Follow): readonly ReactNode[] =>
  tokens.map((token, index) => <Block key={index} token={token as MarkedToken} follow={follow} />);

const inline = (tokens: readonly Token[] | undefined, follow: Follow): readonly ReactNode[] =>
  (tokens ?? []).map((token, index) => <Inline key={index} token={token as MarkedToken} follow={follow} />);

interface OneProps {
  readonly token: MarkedToken;
  readonly follow: Follow;
}

const Block = ({ token, follow }: OneProps): ReactNode => {
  switch (token.type) {
    case "heading":
      // The dialog has the first level.
      return createElement(
        `h${Math.min(6, token.depth + 1)}`,
        { id: `handbook-${headingId(token.text)}`, tabIndex: -1 },
        inline(token.tokens, follow),
      );
    case "paragraph":
      return <p>{inline(token.tokens, follow)}</p>;
    case "list":
      return createElement(
        token.ordered ? "ol" : "ul",
        {},
        token.items.map((item, index) => <li key={index}>{blocks(item.tokens, follow)}</li>),
      );
    case "table":
      return <Table token={token} follow={follow} />;
    case "space":
      return null;
    default:
      return <Inline token={token} follow={follow} />;
  }
};

const Table = ({ token, follow }: { token: Tokens.Table; follow: Follow }) => (
  <table className="handbook-table">
    <thead>
      <tr>
        {token.header.map((cell, index) => (
          <th key={index} scope="col">
            {inline(cell.tokens, follow)}
          </th>
        ))}
      </tr>
    </thead>
    <tbody>
      {token.rows.map((row, index) => (
        <tr key={index}>
          {row.map((cell, column) =>
            column === 0 ? (
              <th key={column} scope="row">
                {inline(cell.tokens, follow)}
              </th>
            ) : (
              <td key={column}>{inline(cell.tokens, follow)}</td>
            ),
          )}
        </tr>
      ))}
    </tbody>
  </table>
);

const Inline = ({ token, follow }: OneProps): ReactNode => {
  switch (token.type) {
    case "strong":
      return <strong>{inline(token.tokens, follow)}</strong>;
    case "em":
      return <em>{inline(token.tokens, follow)}</em>;
    case "codespan":
      return <code className="handbook-formula">{token.text}</code>;
    case "link":
      return (
        <button type="button" className="handbook-link" onClick={() => follow(token.href)}>
          {inline(token.tokens, follow)}
        </button>
      );
    case "text":
      return "tokens" in token && token.tokens !== undefined ? inline(token.tokens, follow) : token.text;
    default:
      return token.raw;
  }
};
