import { err, ok, type Result } from "#shared/lib/result.ts";
import type { Durable, SeasonList } from "#shared/protocol/api.ts";
import type { ApiErrorCode } from "#shared/protocol/api-errors.ts";
import { encodeHistoryRows } from "#shared/protocol/history-rows.ts";
import type { AccessPolicy } from "../access/access-policy.ts";
import { readHistory } from "../access/read-history.ts";
import type { Seasons } from "../access/seasons.ts";
import type { Storage } from "../storage/storage.ts";
import type { HistoryRange } from "../storage/update-log.ts";
import { ASK_DURABLE, CLOSE_SEASON, ERASE_BOARD } from "./bodies.ts";
import { admitted, done, leading, type Routes, replied } from "./handler.ts";
import type { RateBound } from "./rate-bound.ts";

export interface SeasonRoutesParts {
  readonly access: AccessPolicy;
  readonly storage: Pick<Storage, "seasonOf" | "history" | "loadAt">;
  readonly seasons: Seasons;
  /** Bounds how often one device may have a closed document read whole. */
  readonly mayReadClosed: RateBound;
}

/** Closing and erasing, and the past of every season. For leaders, but for what a device asks about its own changes. */
export const seasonRoutes = ({ access, storage, seasons, mayReadClosed }: SeasonRoutesParts): Routes => ({
  "GET /api/seasons": async (request) => {
    const leader = await leading(access, request);
    if (!leader.ok) return leader;
    const list = await seasons.list(leader.value.board);
    return ok({ status: 200, body: { seasons: list } satisfies SeasonList });
  },
  "POST /api/seasons": async (request) => {
    const leader = await leading(access, request);
    if (!leader.ok) return leader;
    const wanted = await request.body(CLOSE_SEASON);
    return wanted.ok ? replied(201, await seasons.close(leader.value, wanted.value.document)) : wanted;
  },
  "POST /api/seasons/:id/durable": async (request) => {
    const session = await admitted(access, request);
    if (!session.ok) return session;
    if (session.value.role === "guest") return err("guests-look");
    if (session.value.role === "dep") return err("own-gig-only");
    if (!mayReadClosed(session.value.device)) return err("too-many");
    const wanted = await request.body(ASK_DURABLE);
    if (!wanted.ok) return wanted;
    const clocks = await seasons.durable(session.value.board, request.id, wanted.value.clients);
    return clocks === null ? err("not-found") : ok({ status: 200, body: { clocks } satisfies Durable });
  },
  "POST /api/people/:id/erase": async (request) => {
    const leader = await leading(access, request);
    return leader.ok ? replied(201, await seasons.erasePerson(leader.value, request.id)) : leader;
  },
  "POST /api/board/erase": async (request) => {
    const leader = await leading(access, request);
    if (!leader.ok) return leader;
    const wanted = await request.body(ERASE_BOARD);
    return wanted.ok ? done(await seasons.eraseBoard(leader.value, wanted.value.name)) : wanted;
  },
  "GET /api/history/:id": async (request) => {
    const leader = await leading(access, request);
    if (!leader.ok) return leader;
    // A season of another board looks like none at all.
    if ((await storage.seasonOf(request.id))?.board !== leader.value.board) return err("not-found");
    const asked = historyAsked(request.query);
    if (!asked.ok) return asked;
    const { state, ...range } = asked.value;
    const rows =
      state === undefined
        ? await readHistory(storage, request.id, range)
        : await storage.loadAt(request.id, state);
    return ok({ status: 200, body: encodeHistoryRows(rows) });
  },
});

interface HistoryAsked extends HistoryRange {
  readonly state?: number;
}

const historyAsked = (query: URLSearchParams): Result<HistoryAsked, ApiErrorCode> => {
  const asked: Record<string, number> = {};
  for (const [name, text] of query) {
    const known = ["after", "before", "limit", "state"].includes(name);
    if (!known || name in asked || !/^\d{1,15}$/.test(text)) return err("bad-request");
    asked[name] = Number(text);
  }
  return ok(asked);
};
