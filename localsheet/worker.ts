/** Runs beside the page, where it is served: gives its files without a network, all of one version. */
import { type PrecacheEntry, Serwist } from "serwist";

declare const self: { __SW_MANIFEST: (PrecacheEntry | string)[] };

// A newer version waits until the person takes it: the page asks this worker to go on then.
new Serwist({ precacheEntries: self.__SW_MANIFEST, clientsClaim: true }).addEventListeners();
