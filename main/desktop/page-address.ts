/** The address under which the desktop serves its page, and whether another address is that page. */

export const SCHEME = "app";
export const PAGE_HOST = "coldstock";
export const PAGE_ADDRESS = `${SCHEME}://${PAGE_HOST}/`;

/** Parsed, never searched: "app://coldstock.example/" and "https://x/?app://coldstock/" are not the page. */
export const isPageAddress = (address: string): boolean => {
  if (!URL.canParse(address)) return false;
  const url = new URL(address);
  return (
    url.protocol === `${SCHEME}:` &&
    url.host === PAGE_HOST &&
    url.pathname === "/" &&
    url.username === "" &&
    url.password === ""
  );
};
