import type { BandAccess } from "#client/store/band-access.ts";
import { createApi } from "#client/sync/api.ts";
import { deviceName } from "#client/sync/device-name.ts";
import { createBandAccess } from "./band-access.ts";
import { device } from "./device.ts";

/** The access of this page's screens to bands, over the server the page came from. */
export const access: BandAccess = createBandAccess({
  api: createApi({ deviceName: deviceName(navigator) }),
  device,
  now: Date.now,
  origin: location.origin,
});
