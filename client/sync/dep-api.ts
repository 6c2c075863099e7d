/** A dep's two calls to the server. Whatever goes wrong comes back as a sentence for people. */
import * as v from "valibot";
import { CARD_KINDS, WEIGHTS } from "#shared/board/card.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { DepAnswer, DepGig, DepOutcome } from "#shared/protocol/dep-api.ts";
import { bodyOf, problemOf } from "./api.ts";
import { type ApiProblem, OFFLINE, UNREADABLE } from "./api-problem.ts";

const text = v.string();
const texts = v.array(text);
const DETAIL = v.object({
  id: text,
  where: text,
  weight: v.picklist(WEIGHTS),
  kind: v.picklist(CARD_KINDS),
  text,
  right: text,
  otherwise: texts,
  shared: texts,
  gotIt: v.boolean(),
});
const QUESTION = v.object({
  id: text,
  card: v.nullable(text),
  text,
  answers: v.array(v.object({ text, by: text })),
});
const SONG = v.object({
  id: text,
  title: text,
  version: text,
  key: text,
  liftKey: text,
  tempo: v.nullable(v.number()),
  metre: text,
  length: v.nullable(v.number()),
  countIn: text,
  // Nor of this.
  firstChord: v.optional(text, ""),
  ending: text,
  tuning: text,
  capo: v.number(),
  form: v.array(v.object({ name: text, bars: v.number() })),
  parts: v.array(v.object({ chair: text, name: text, tacet: v.boolean() })),
  details: v.array(DETAIL),
  questions: v.array(QUESTION),
});

/** What the server sends, and what this device keeps of it. */
export const DEP_GIG: v.GenericSchema<unknown, DepGig> = v.object({
  band: text,
  name: text,
  place: text,
  date: text,
  // A server or a kept gig of an older release says nothing of these.
  call: v.optional(text, ""),
  start: v.optional(text, ""),
  dress: v.optional(text, ""),
  contact: v.optional(text, ""),
  you: text,
  chairs: texts,
  songs: v.array(SONG),
});

const OUTCOMES: v.GenericSchema<unknown, { outcomes: DepOutcome[] }> = v.object({
  outcomes: v.array(
    v.variant("taken", [
      v.object({ id: text, taken: v.literal(true) }),
      v.object({ id: text, taken: v.literal(false), sentence: text }),
    ]),
  ),
});

/** The gig with the tag that names this state of it. */
export interface TaggedGig {
  readonly gig: DepGig;
  readonly tag: string;
}

export interface DepApi {
  /** The gig, or null when it is still what `tag` names. */
  readonly look: (tag: string | null) => Promise<Result<TaggedGig | null, ApiProblem>>;
  readonly send: (answers: readonly DepAnswer[]) => Promise<Result<readonly DepOutcome[], ApiProblem>>;
}

const TIMEOUT_MS = 15_000;

/** The calls of one dep's device, over the server the page came from. */
export const createDepApi = (
  token: string,
  send: typeof globalThis.fetch = globalThis.fetch.bind(globalThis),
): DepApi => {
  const call = async (path: string, init: RequestInit): Promise<Result<Response, ApiProblem>> => {
    try {
      const headers = { ...init.headers, authorization: `Bearer ${token}` };
      const signal = AbortSignal.timeout(TIMEOUT_MS);
      return ok(await send(path, { ...init, headers, signal, cache: "no-store", credentials: "omit" }));
    } catch {
      return err(OFFLINE);
    }
  };
  const read = async <T>(
    response: Response,
    schema: v.GenericSchema<unknown, T>,
  ): Promise<Result<T, ApiProblem>> => {
    let body: unknown;
    try {
      body = await bodyOf(response);
    } catch {
      return err(OFFLINE);
    }
    if (!response.ok) return err(problemOf(response.status, body));
    const parsed = v.safeParse(schema, body);
    return parsed.success ? ok(parsed.output) : err(UNREADABLE);
  };
  return {
    look: async (tag) => {
      const answer = await call("/api/gig", tag === null ? {} : { headers: { "if-none-match": tag } });
      if (!answer.ok) return answer;
      if (answer.value.status === 304) return ok(null);
      const gig = await read(answer.value, DEP_GIG);
      return gig.ok ? ok({ gig: gig.value, tag: answer.value.headers.get("etag") ?? "" }) : gig;
    },
    send: async (answers) => {
      const answer = await call("/api/gig/answers", {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ answers }),
      });
      if (!answer.ok) return answer;
      const outcomes = await read(answer.value, OUTCOMES);
      return outcomes.ok ? ok(outcomes.value.outcomes) : outcomes;
    },
  };
};
