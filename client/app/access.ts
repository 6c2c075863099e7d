import type { BandAccess } from "#client/store/band-access.ts";
import { createBandAccess } from "./band-access.ts";
import { device } from "./device.ts";
import { server } from "./server.ts";

/** The access of this page's screens to bands, over the server the page came from. */
export const access: BandAccess = createBandAccess({
  api: server,
  device,
  now: Date.now,
  origin: location.origin,
});
