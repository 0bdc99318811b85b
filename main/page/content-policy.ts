/** The headers under which every host serves the page. Nothing from outside, no inline script, no HTML from text. */

/**
 * The widget library puts this one style sheet into the page at run time (touch behaviour of buttons). It is let in by
 * the hash of its text; a test computes the hash from the installed library, so an upgrade that changes it is noticed.
 */
export const PRESSABLE_STYLE_HASH = "sha256-38RhXrc7EdReTKsOm23ZPOCUgniTUUcjky8QOOrQx6o=";

export const CONTENT_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  `style-src 'self' '${PRESSABLE_STYLE_HASH}'`,
  "img-src 'self' data:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
  "require-trusted-types-for 'script'",
  "trusted-types default",
].join("; ");

/** For every answer that the page's origin gives. */
export const pageHeaders: Readonly<Record<string, string>> = {
  "content-security-policy": CONTENT_POLICY,
  "x-content-type-options": "nosniff",
  "referrer-policy": "no-referrer",
  "cross-origin-opener-policy": "same-origin",
  "cross-origin-resource-policy": "same-origin",
  "permissions-policy": "camera=(), microphone=(), geolocation=(), usb=(), serial=(), hid=()",
};
