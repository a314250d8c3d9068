import { installed } from './installed.ts';

/** Programs that are Chromium without a window, by the names systems give them; none is ever downloaded. */
const BROWSERS = ['chromium-headless-shell', 'chromium', 'chromium-browser', 'google-chrome'];

/** Path of the Chromium of this machine; undefined when it has none. */
export function installedChromium(): string | undefined {
  return installed(...BROWSERS);
}

/** Said where browser tests are left out. */
export const NO_CHROMIUM = 'left out: this machine has no Chromium (on Debian: apt install chromium)';
