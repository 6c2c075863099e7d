import { openDevice } from "#client/sync/device.ts";

/** What this browser knows about itself and its boards; one for the whole page. */
export const device = openDevice();
