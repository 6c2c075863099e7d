import { createApi } from "#client/sync/api.ts";
import { deviceName } from "#client/sync/device-name.ts";

/** The API of the server this page came from. */
export const serverApi = createApi({ deviceName: deviceName(navigator) });
