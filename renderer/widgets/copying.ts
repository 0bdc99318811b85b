/** How a widget puts text on the clipboard: as the page that shows it has said, for hosts differ in it. */
import { createContext, useContext } from "react";

/** `what` names it for the person: "Flights, 12 rows". */
export type CopyText = (text: string, what: string) => void;

export const CopyContext = createContext<CopyText>((text) => void navigator.clipboard.writeText(text));

export const useCopyText = (): CopyText => useContext(CopyContext);
