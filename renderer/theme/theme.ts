/** The look in one import: fonts, tokens, bare elements, in this order. */
import "@fontsource-variable/atkinson-hyperlegible-next/index.css";
import "@fontsource-variable/atkinson-hyperlegible-mono/index.css";
import "./tokens.css";
import "./base.css";
import "./on-paper.css";
