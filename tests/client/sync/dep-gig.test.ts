/** A dep's gig on the phone: shown and answered without signal, sent when there is one, across reloads. */
import fc from "fast-check";
import { expect, test, vi } from "vitest";
import type { ApiProblem } from "#client/sync/api-problem.ts";
import { createDepApi, type DepApi } from "#client/sync/dep-api.ts";
import { createDepGig } from "#client/sync/dep-gig.ts";
import { openDepShelf } from "#client/sync/dep-memory.ts";
import { err, ok } from "#shared/lib/result.ts";
import { API_ERRORS } from "#shared/protocol/api-errors.ts";
import type { DepAnswer, DepGig, DepOutcome } from "#shared/protocol/dep-api.ts";
import { depGig } from "#shared/selectors/dep-gig.ts";
import { gotItState, questionsShown } from "#shared/selectors/dep-view.ts";
import { gigBand } from "#tests/support/gig-with-dep.ts";

const OFFLINE: ApiProblem = { code: "offline", message: "No.", retriable: true };
const problem = (code: keyof typeof API_ERRORS): ApiProblem => ({
  code,
  message: API_ERRORS[code].message,
  retriable: API_ERRORS[code].status >= 500,
});

const gigOf = (got: readonly string[] = []): DepGig => {
  const gig = depGig(gigBand().board(), "harbour", "karim");
  if (gig === null) throw new Error("no gig");
  const songs = gig.songs.map((song) => ({
    ...song,
    details: song.details.map((detail) => ({ ...detail, gotIt: got.includes(detail.id) })),
  }));
  return { ...gig, songs };
};

interface FakeServer {
  readonly taken: Map<string, DepAnswer>;
  readonly requests: (readonly DepAnswer[])[];
  looks: number;
  down: ApiProblem | null;
  /** The reply is lost after the answers were taken. */
  losesReplies: boolean;
  readonly refuses: Set<string>;
  readonly api: DepApi;
}

/** A server that takes answers once by id, and can be out of reach or refuse. */
const fakeServer = (): FakeServer => {
  const taken = new Map<string, DepAnswer>();
  const server: FakeServer = {
    taken,
    requests: [],
    looks: 0,
    down: null,
    losesReplies: false,
    refuses: new Set(),
    api: {
      look: async (tag) => {
        server.looks += 1;
        if (server.down !== null) return err(server.down);
        const got = [...taken.values()].flatMap((answer) => (answer.kind === "got it" ? [answer.card] : []));
        const now = `"${got.join()}"`;
        return ok(tag === now ? null : { gig: gigOf(got), tag: now });
      },
      send: async (answers) => {
        if (server.down !== null) return err(server.down);
        server.requests.push(answers);
        const outcomes = answers.map((answer): DepOutcome => {
          const at = answer.kind === "ask" ? answer.text : answer.card;
          if (server.refuses.has(at)) return { id: answer.id, taken: false, sentence: "Not shown any more." };
          if (!taken.has(answer.id)) taken.set(answer.id, answer);
          return { id: answer.id, taken: true };
        });
        return server.losesReplies ? err(OFFLINE) : ok(outcomes);
      },
    },
  };
  return server;
};

const fakeStorage = () => {
  const items = new Map<string, string>();
  return {
    items,
    getItem: (key: string) => items.get(key) ?? null,
    setItem: (key: string, text: string) => void items.set(key, text),
  };
};

type Shelf = Parameters<typeof openDepShelf>[1];

let minted = 0;
const open = (server: FakeServer, storage: Shelf = fakeStorage(), expiresAt = 5000) => {
  let back = () => {};
  const store = createDepGig({
    api: server.api,
    shelf: openDepShelf({ board: "harbour-board", expiresAt }, storage),
    signals: {
      listen: (on) => {
        back = on.back;
        return () => {};
      },
    },
    now: () => 1000,
    newId: () => {
      minted += 1;
      return `id-${minted}`;
    },
    watched: () => false,
  });
  return { store, back: () => back() };
};
const rootOf = (gig: DepGig | null) =>
  gig?.songs[0]?.details.find(({ id }) => id === "root") ?? { id: "root", gotIt: false };

test("[SYNC-3] what is said without signal stays across a reload and is sent when there is signal", async () => {
  const [server, storage] = [fakeServer(), fakeStorage()];
  const first = open(server, storage);
  await first.store.refresh();
  server.down = OFFLINE;
  first.store.gotIt("root");
  first.store.ask("diesel", "stop", " How hard? ");
  await first.store.refresh();
  expect(first.store.state().connection).toBe("offline");
  expect(gotItState(rootOf(first.store.state().gig), first.store.state().answers).state).toBe(
    "on this phone",
  );
  first.store.close();

  const second = open(server, storage);
  expect(second.store.state().gig?.name).toBe("Harbour night");
  expect(second.store.state().answers).toHaveLength(2);
  server.down = null;
  second.back();
  await second.store.refresh();
  expect([...server.taken.values()]).toMatchObject([{ card: "root" }, { text: "How hard?", card: "stop" }]);
  expect(second.store.state()).toMatchObject({ connection: "connected", answers: [], asOf: 1000 });
  expect(rootOf(second.store.state().gig).gotIt).toBe(true);
});

test("a lost reply means sending again under the same id", async () => {
  const server = fakeServer();
  const { store } = open(server);
  await store.refresh();
  server.losesReplies = true;
  store.gotIt("root");
  await store.refresh();
  expect(store.state().answers).toMatchObject([{ state: "on this phone" }]);
  server.losesReplies = false;
  await store.refresh();
  expect(new Set(server.requests.flat().map(({ id }) => id)).size).toBe(1);
  expect(store.state().answers).toEqual([]);
});

test("[SYNC-3] a refused answer says why until it was read, holds nothing else up, and can be tried again", async () => {
  const server = fakeServer();
  server.refuses.add("root");
  const { store } = open(server);
  await store.refresh();
  store.gotIt("root");
  store.gotIt("stop");
  await store.refresh();
  const { gig, answers } = store.state();
  expect(gotItState(rootOf(gig), answers)).toMatchObject({
    state: "refused",
    sentence: "Not shown any more.",
  });
  expect(answers).toHaveLength(1);
  server.refuses.clear();
  store.gotIt("root");
  await store.refresh();
  expect(store.state().answers).toEqual([]);
  server.refuses.add("Why?");
  store.ask("diesel", null, "Why?");
  await store.refresh();
  const [song] = store.state().gig?.songs ?? [];
  const [question] = song === undefined ? [] : questionsShown(song, null, store.state().answers);
  expect(question).toMatchObject({ state: "refused", text: "Why?" });
  store.dismiss(question?.id ?? "");
  expect(store.state().answers).toEqual([]);
});

test("a batch the server cannot read is refused with its sentence instead of standing in the way for ever", async () => {
  const server = fakeServer();
  const { store } = open(server);
  await store.refresh();
  const send = vi.spyOn(server.api, "send").mockResolvedValueOnce(err(problem("bad-request")));
  store.gotIt("root");
  await store.refresh();
  expect(store.state().answers).toMatchObject([
    { state: "refused", sentence: API_ERRORS["bad-request"].message },
  ]);
  send.mockRestore();
});

test("when the way in has ended the band's gig leaves the phone, and what was not sent stays", async () => {
  const [server, storage] = [fakeServer(), fakeStorage()];
  const { store } = open(server, storage);
  await store.refresh();
  server.down = problem("way-in-ended");
  store.ask("diesel", null, "One last thing?");
  await store.refresh();
  expect(store.state()).toMatchObject({
    gig: null,
    connection: "refused",
    reason: API_ERRORS["way-in-ended"].message,
  });
  expect(store.state().answers).toMatchObject([{ answer: { text: "One last thing?" } }]);
  expect([...storage.items.values()].join()).not.toContain("Marzipan");
});

test("a link to another gig drops what the last one showed, and keeps what was not sent", async () => {
  const [server, storage] = [fakeServer(), fakeStorage()];
  const first = open(server, storage);
  await first.store.refresh();
  server.down = OFFLINE;
  first.store.ask("diesel", null, "Still there?");
  await first.store.refresh();
  first.store.close();
  const next = open(server, storage, 9000);
  expect(next.store.state()).toMatchObject({ gig: null, asOf: null });
  expect(next.store.state().answers).toHaveLength(1);
  next.store.close();
});

test("a server that is in trouble takes nothing away", async () => {
  const server = fakeServer();
  const { store } = open(server);
  await store.refresh();
  server.down = problem("not-stored");
  store.gotIt("root");
  await store.refresh();
  expect(store.state()).toMatchObject({ connection: "offline", reason: API_ERRORS["not-stored"].message });
  expect(store.state().gig).not.toBeNull();
});

test("tapping twice says it once; many answers go in several requests that the server's bounds let through", async () => {
  const server = fakeServer();
  const { store } = open(server);
  await store.refresh();
  server.down = OFFLINE;
  store.gotIt("root");
  store.gotIt("root");
  for (let n = 0; n < 45; n++) store.ask("diesel", null, `${n} ${"ü".repeat(490)}`);
  await store.refresh();
  server.down = null;
  await store.refresh();
  expect(server.taken.size).toBe(46);
  for (const answers of server.requests) {
    expect(answers.length).toBeLessThanOrEqual(20);
    expect(new TextEncoder().encode(JSON.stringify({ answers })).length).toBeLessThan(16_384);
  }
});

test("where nothing may be stored it works until the page is closed, and says so", async () => {
  const server = fakeServer();
  const { store } = open(server, null);
  await store.refresh();
  store.gotIt("root");
  await store.refresh();
  expect(rootOf(store.state().gig).gotIt).toBe(true);
  expect(store.state().reason).toMatch(/keeps nothing/);
});

test("the state keeps its reference while nothing changes", async () => {
  const { store } = open(fakeServer());
  await store.refresh();
  const before = store.state();
  expect(store.state()).toBe(before);
});

test("whatever stands in the storage is read without throwing, and answers that can be read are kept", () => {
  const good = { answer: { id: "a", kind: "got it", card: "root" }, state: "on this phone", sentence: "" };
  fc.assert(
    fc.property(
      fc.oneof(
        fc.string(),
        fc.jsonValue().map((value) => JSON.stringify(value)),
      ),
      (text) => {
        const memory = openDepShelf(
          { board: "b", expiresAt: null },
          { getItem: () => text, setItem: () => {} },
        ).read();
        expect(Array.isArray(memory.answers)).toBe(true);
      },
    ),
    { numRuns: 1000 },
  );
  const text = JSON.stringify({ shown: { gig: 7 }, answers: [good, { answer: 1 }, null] });
  expect(
    openDepShelf({ board: "b", expiresAt: null }, { getItem: () => text, setItem: () => {} }).read(),
  ).toEqual({
    until: null,
    shown: null,
    asOf: null,
    answers: [good],
  });
});

test("the two calls: bearer, tag, and what each answer becomes", async () => {
  const calls: { path: string; init: RequestInit }[] = [];
  const answering = (response: () => Response | Promise<Response>) =>
    createDepApi("the-token", (async (path: string, init: RequestInit) => {
      calls.push({ path, init });
      return response();
    }) as typeof fetch);
  const json = (body: unknown, init: ResponseInit = {}) =>
    new Response(JSON.stringify(body), {
      headers: { "content-type": "application/json", etag: '"t"' },
      ...init,
    });
  expect(await answering(() => json(gigOf())).look('"old"')).toMatchObject({
    ok: true,
    value: { tag: '"t"' },
  });
  expect(calls[0]).toMatchObject({
    path: "/api/gig",
    init: { headers: { authorization: "Bearer the-token", "if-none-match": '"old"' }, cache: "no-store" },
  });
  expect(await answering(() => new Response(null, { status: 304 })).look('"t"')).toEqual({
    ok: true,
    value: null,
  });
  expect(await answering(() => json({ name: 7 })).look(null)).toMatchObject({
    error: { code: "unreadable" },
  });
  expect(await answering(() => Promise.reject(new TypeError("no network"))).look(null)).toMatchObject({
    error: { code: "offline" },
  });
  const ended = () => json({ error: "way-in-ended" }, { status: 401 });
  expect(await answering(ended).send([])).toMatchObject({
    error: { code: "way-in-ended", retriable: false },
  });
  const outcomes = [{ id: "a", taken: true }];
  expect(await answering(() => json({ outcomes })).send([])).toEqual({ ok: true, value: outcomes });
});
