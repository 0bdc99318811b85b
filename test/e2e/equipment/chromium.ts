/** The Chromium that `npm ci` brings, and how it is started without a screen. */
import sparticuz from "@sparticuz/chromium";

export interface ChromiumEquipment {
  readonly executablePath: string;
  readonly args: string[];
}

/** Unpacks it on first use. Throws where it does not run on this system (it is made for Linux on x64). */
export const findChromium = async (): Promise<ChromiumEquipment> => ({
  executablePath: await sparticuz.executablePath(),
  args: ["--no-sandbox", "--font-render-hinting=none"],
});
