import { apiOnDemand } from "#client/sync/api-on-demand.ts";

/** The server this page came from. */
export const server = apiOnDemand(async () => (await import("./server-api.ts")).serverApi);
