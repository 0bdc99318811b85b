/**
 * The page's rule for HTML from text: none, but the empty text with which a widget library clears a node. The content
 * security policy of both hosts requires it; without it even that clearing would throw.
 */

interface PolicyFactory {
  createPolicy(name: "default", rules: { createHTML(text: string): string | null }): unknown;
}

/** Call before anything is rendered. */
export const forbidHtmlFromText = (): void => {
  const factory = (globalThis as { readonly trustedTypes?: PolicyFactory }).trustedTypes;
  factory?.createPolicy("default", { createHTML: (text) => (text === "" ? "" : null) });
};
