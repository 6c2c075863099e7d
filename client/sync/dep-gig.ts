/**
 * A dep's gig on this device: shown from what is kept here, brought up to date when the server answers, and every
 * answer kept until the server has it. Governing rule: nothing the dep said is dropped before it is saved or read as
 * refused.
 */
import type { DepConnection, DepGigStore, DepState } from "#client/store/dep-gig.ts";
import { createListeners } from "#client/store/listeners.ts";
import { DEP_ANSWERS_MAX, type DepAnswer } from "#shared/protocol/dep-api.ts";
import type { KeptAnswer } from "#shared/selectors/dep-view.ts";
import type { ApiProblem } from "./api-problem.ts";
import type { DepApi } from "./dep-api.ts";
import type { DepShelf } from "./dep-memory.ts";
import type { PageSignals } from "./page-signals.ts";

export interface DepGigParts {
  readonly api: DepApi;
  readonly shelf: DepShelf;
  readonly signals: PageSignals;
  /** Device clock, ms. */
  readonly now: () => number;
  readonly newId: () => string;
  /** Whether somebody looks at the page; only then is the server asked again by itself. */
  readonly watched: () => boolean;
  /** How often (ms) the server is asked. */
  readonly everyMs?: number;
}

const EVERY_MS = 20_000;
/** No browser says for sure that the network is back. */
const RETRY_MS = 5000;
/** Characters of JSON in one request; the server takes 16 kB of UTF-8, which is at most three bytes a character here. */
const BATCH_CHARS = 5000;

/** After these the server tells this device nothing more, and what it kept of the band's gig goes. */
const isEnd = ({ code, retriable }: ApiProblem): boolean =>
  !retriable && code !== "offline" && code !== "unreadable" && code !== "bad-request" && code !== "too-large";

const nextBatch = (answers: readonly KeptAnswer[]): readonly DepAnswer[] => {
  const batch: DepAnswer[] = [];
  let chars = 0;
  for (const { answer, state } of answers) {
    if (state !== "on this phone") continue;
    chars += JSON.stringify(answer).length;
    if (batch.length === DEP_ANSWERS_MAX || (batch.length > 0 && chars > BATCH_CHARS)) break;
    batch.push(answer);
  }
  return batch;
};

export const createDepGig = (parts: DepGigParts): DepGigStore => {
  const { api, shelf, signals, now, newId, watched, everyMs = EVERY_MS } = parts;
  const listeners = createListeners<"gig">();
  let connection: DepConnection = "asking";
  let reason = "";
  let last: DepState | null = null;

  const state = (): DepState => {
    const { shown, asOf, answers } = shelf.read();
    const gig = shown?.gig ?? null;
    const cannot = shelf.remembers() ? reason : reason || "This browser keeps nothing: leave the page open.";
    if (
      last === null ||
      last.gig !== gig ||
      last.asOf !== asOf ||
      last.answers !== answers ||
      last.connection !== connection ||
      last.reason !== cannot
    )
      last = { gig, asOf, answers, connection, reason: cannot };
    return last;
  };
  const tell = (): void => listeners.notify(["gig"]);
  const become = (next: DepConnection, why = ""): void => {
    connection = next;
    reason = why;
    tell();
  };

  const settle = (judge: (kept: KeptAnswer) => KeptAnswer | null): void =>
    shelf.change((memory) => ({
      ...memory,
      answers: memory.answers.flatMap((kept) => judge(kept) ?? []),
    }));

  let retry: ReturnType<typeof setTimeout> | undefined;
  const askSoon = (): void => {
    clearTimeout(retry);
    retry = setTimeout(() => (watched() ? void refresh() : askSoon()), RETRY_MS);
  };

  const failed = (problem: ApiProblem): void => {
    if (!isEnd(problem)) {
      const apart = problem.retriable || problem.code === "offline";
      if (apart) askSoon();
      become(apart ? "offline" : "refused", problem.code === "offline" ? "" : problem.message);
      return;
    }
    shelf.change((memory) => ({ ...memory, shown: null, asOf: null }));
    become("refused", problem.message);
  };

  /** Null when everything is sent, or each of it refused. */
  const sendAll = async (): Promise<ApiProblem | null> => {
    for (
      let batch = nextBatch(shelf.read().answers);
      batch.length > 0;
      batch = nextBatch(shelf.read().answers)
    ) {
      const sent = await api.send(batch);
      const ids = new Set(batch.map(({ id }) => id));
      if (sent.ok) {
        const refused = new Map(
          sent.value.flatMap((one) => (one.taken ? [] : [[one.id, one.sentence] as const])),
        );
        settle((kept) => {
          if (!ids.has(kept.answer.id)) return kept;
          const why = refused.get(kept.answer.id);
          return why === undefined
            ? { ...kept, state: "saved" }
            : { ...kept, state: "refused", sentence: why };
        });
      } else if (sent.error.retriable || sent.error.code === "unreadable" || isEnd(sent.error))
        return sent.error;
      // A batch the server cannot take would stand in the way of everything after it.
      else
        settle((kept) =>
          ids.has(kept.answer.id) ? { ...kept, state: "refused", sentence: sent.error.message } : kept,
        );
      tell();
    }
    return null;
  };

  const round = async (): Promise<void> => {
    const problem = await sendAll();
    if (problem !== null) return failed(problem);
    // What was saved before this look is in what it shows.
    const before = new Set(
      shelf
        .read()
        .answers.filter((kept) => kept.state === "saved")
        .map(({ answer }) => answer.id),
    );
    const looked = await api.look(shelf.read().shown?.tag ?? null);
    if (!looked.ok) return failed(looked.error);
    shelf.change((memory) => ({
      ...memory,
      shown: looked.value ?? memory.shown,
      asOf: now(),
      answers: memory.answers.filter(({ answer }) => !before.has(answer.id)),
    }));
    become("connected");
  };

  let running: Promise<void> | null = null;
  let again = false;
  const refresh = (): Promise<void> => {
    again = true;
    running ??= (async () => {
      while (again) {
        again = false;
        await round();
      }
    })().finally(() => {
      running = null;
    });
    return running;
  };

  const keep = (answer: DepAnswer): void => {
    shelf.change((memory) => ({
      ...memory,
      answers: [...memory.answers, { answer, state: "on this phone", sentence: "" }],
    }));
    tell();
    void refresh();
  };

  const timer = setInterval(() => {
    if (watched()) void refresh();
  }, everyMs);
  const deaf = signals.listen({ lost: () => become("offline"), back: () => void refresh(), left: () => {} });
  void refresh();

  return {
    state,
    subscribe: (listener) => listeners.subscribe("gig", listener),
    gotIt: (card) => {
      // A second tap says nothing new; after a refusal it is another try.
      const waits = shelf
        .read()
        .answers.some(
          ({ answer, state }) => answer.kind === "got it" && answer.card === card && state !== "refused",
        );
      if (waits) return;
      settle((kept) => (kept.answer.kind === "got it" && kept.answer.card === card ? null : kept));
      keep({ id: newId(), kind: "got it", card });
    },
    ask: (song, card, text) => keep({ id: newId(), kind: "ask", song, card, text: text.trim() }),
    dismiss: (id) => {
      settle((kept) => (kept.answer.id === id && kept.state === "refused" ? null : kept));
      tell();
    },
    refresh,
    close: () => {
      clearInterval(timer);
      clearTimeout(retry);
      deaf();
    },
  };
};
