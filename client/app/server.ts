import { createApi } from "#client/sync/api.ts";
import { deviceName } from "#client/sync/device-name.ts";

/** The server this page came from. */
export const server = createApi({ deviceName: deviceName(navigator) });
