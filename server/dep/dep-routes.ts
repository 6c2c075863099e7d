import { createHash } from "node:crypto";
import * as v from "valibot";
import { isId } from "#shared/board/ids.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { ApiErrorCode } from "#shared/protocol/api-errors.ts";
import { DEP_ANSWERS_MAX, DEP_ID_MAX, DEP_TEXT_MAX, type DepAnswered } from "#shared/protocol/dep-api.ts";
import { depGig } from "#shared/selectors/dep-gig.ts";
import { type AccessPolicy, REFUSALS } from "../access/access-policy.ts";
import type { Handler } from "../api/handler.ts";
import { createRateBound } from "../api/rate-bound.ts";
import type { ApiRequest } from "../api/request.ts";
import type { RoomRegistry } from "../rooms/room-registry.ts";
import { type DepSession, takeDepAnswers } from "./dep-answers.ts";
import { followBoard } from "./followed-board.ts";

export interface DepParts {
  readonly access: AccessPolicy;
  readonly rooms: Pick<RoomRegistry, "read" | "write">;
  readonly clock: () => number;
}

/** How often one device may look at its gig, and send answers, in a minute. */
const LOOKS_PER_MINUTE = 120;
const SENDS_PER_MINUTE = 60;

const answerId = v.pipe(v.string(), v.regex(/^[\w-]+$/), v.maxLength(DEP_ID_MAX));
const record = v.custom<string>(isId);
const ANSWERS = v.strictObject({
  answers: v.pipe(
    v.array(
      v.variant("kind", [
        v.strictObject({ id: answerId, kind: v.literal("got it"), card: record }),
        v.strictObject({
          id: answerId,
          kind: v.literal("ask"),
          song: record,
          card: v.optional(v.nullable(record)),
          text: v.pipe(v.string(), v.maxLength(DEP_TEXT_MAX)),
        }),
      ]),
    ),
    v.maxLength(DEP_ANSWERS_MAX),
  ),
});

/** A dep's two ways to the server: the one gig, and answers to it. Everything else of the board is out of reach. */
export const depRoutes = ({ access, rooms, clock }: DepParts): Readonly<Record<string, Handler>> => {
  const mayLook = createRateBound(LOOKS_PER_MINUTE, clock);
  const maySend = createRateBound(SENDS_PER_MINUTE, clock);
  return {
    "GET /api/gig": async (request) => {
      const dep = await admittedDep(access, request);
      if (!dep.ok) return dep;
      const { document, session } = dep.value;
      if (!mayLook(session.device)) return err("too-many");
      const gig = await rooms.read(document, (board) =>
        depGig(followBoard(board).board(), session.gig, session.member),
      );
      if (gig === null) return err("gig-gone");
      const etag = tagOf(gig);
      return ok(request.ifNoneMatch === etag ? { status: 304, etag } : { status: 200, body: gig, etag });
    },
    "POST /api/gig/answers": async (request) => {
      const dep = await admittedDep(access, request);
      if (!dep.ok) return dep;
      const { document, session } = dep.value;
      if (!maySend(session.device)) return err("too-many");
      const sent = await request.body(ANSWERS);
      if (!sent.ok) return sent;
      const by = { device: session.device, member: session.member };
      const outcomes = await rooms.write(document, by, (board) =>
        takeDepAnswers(board, session, sent.value.answers, clock()),
      );
      return ok({ status: 200, body: { outcomes } satisfies DepAnswered });
    },
  };
};

const admittedDep = async (
  access: AccessPolicy,
  request: ApiRequest,
): Promise<Result<{ readonly document: string; readonly session: DepSession }, ApiErrorCode>> => {
  const admission = await access.admit(request.bearer, null);
  if (!admission.ok) return err(REFUSALS[admission.refusal].api);
  const { role, gig, memberId, device, document } = admission.session;
  if (role !== "dep") return err("not-a-dep");
  return gig === null || memberId === null
    ? err("no-gig")
    : ok({ document, session: { device, member: memberId, gig } });
};

const tagOf = (gig: object): string =>
  `"${createHash("sha256").update(JSON.stringify(gig)).digest("base64url").slice(0, 22)}"`;
