import { apiOnDemand } from "#client/sync/api-on-demand.ts";

const load = async () => (await import("./server-api.ts")).serverApi;

/** The server this page came from. */
export const server = apiOnDemand(load);

/** Fetches the calls before one is made: what cannot be fetched once, some browsers never fetch again on that page. */
export const callsAhead = (): void => void load().catch(() => {});
