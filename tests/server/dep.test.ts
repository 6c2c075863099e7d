/** A dep's way to the server: one gig, and answers to it. Everything else of the board is out of reach. */
import { expect, test } from "vitest";

import { answerQuestion } from "#shared/commands/ask-question.ts";
import { dropSong } from "#shared/commands/call-song.ts";
import { idsFrom } from "#shared/commands/command.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import type { ApiError } from "#shared/protocol/api-errors.ts";
import type { DepAnswer, DepAnswered, DepGig } from "#shared/protocol/dep-api.ts";
import { call } from "#tests/support/api-client.ts";
import { createBoard, refusal } from "#tests/support/boards.ts";
import { type DepServer, startDepServer } from "#tests/support/dep-server.ts";
import { createFaultyStorage } from "#tests/support/faulty-storage.ts";
import { connectRaw } from "#tests/support/raw-client.ts";
import { connectStock } from "#tests/support/stock-client.ts";

const look = (server: DepServer, bearer: string, headers: Record<string, string> = {}) =>
  call<DepGig>(server.origin, "GET /api/gig", { bearer, headers });

const send = async (server: DepServer, bearer: string, answers: readonly unknown[]) => {
  const { status, body } = await call<DepAnswered>(server.origin, "POST /api/gig/answers", {
    bearer,
    body: { answers },
  });
  expect(status).toBe(200);
  return body.outcomes;
};

const gotIt = (card: string, id = `g-${card}`): DepAnswer => ({ id, kind: "got it", card });
const ask = (text: string, more: object = {}, id = "a1"): DepAnswer => ({
  id,
  kind: "ask",
  song: "diesel",
  text,
  ...more,
});

test("[DEP-1] a dep gets the gig of their link", async () => {
  const server = await startDepServer();
  const { status, body } = await look(server, await server.device());
  expect(status).toBe(200);
  expect(body).toMatchObject({ name: "Harbour night", you: "Karim Belhossat", chairs: ["Bass"] });
  expect(body.songs.map(({ title }) => title)).toEqual(["Marzipan Diesel", "Umbrella Season"]);
});

test("polling is cheap: 304 without a body until something the dep sees has changed", async () => {
  const server = await startDepServer();
  const token = await server.device();
  const tag = (await look(server, token)).headers.get("etag") ?? "";
  expect(tag).toMatch(/^"[\w-]{22}"$/);
  const same = await look(server, token, { "If-None-Match": tag });
  expect([same.status, same.body]).toEqual([304, ""]);
  expect(same.headers.get("x-content-type-options")).toBe("nosniff");
  await send(server, token, [gotIt("root")]);
  const changed = await look(server, token, { "If-None-Match": tag });
  expect([changed.status, changed.body.songs[0]?.details[0]?.gotIt]).toEqual([200, true]);
});

test("[DEP-1] “got it” marks the dep's own detail as noticed, a question stands on the board, both on the disk", async () => {
  const server = await startDepServer();
  const token = await server.device({ id: "dep-phone" });
  const outcomes = await send(server, token, [gotIt("stop"), ask(" Which octave? ", { card: "root" })]);
  expect(outcomes).toEqual([
    { id: "g-stop", taken: true },
    { id: "a1", taken: true },
  ]);
  const diesel = (await server.stored()).songs.get("diesel");
  expect(diesel?.statuses.get("stop")?.get("karim")).toMatchObject({ level: 1, writer: "dep-phone" });
  expect(diesel?.questions).toMatchObject([
    {
      id: "dep.dep-phone.a1",
      card: "root",
      chair: "bass",
      gig: "harbour",
      text: "Which octave?",
      by: "karim",
    },
  ]);
  const rows = await server.storage.load("harbour-board");
  expect(rows.at(-1)).toMatchObject({ device: "dep-phone", member: "karim" });
});

test("answers sent again under their id change nothing more, whatever they say now", async () => {
  const server = await startDepServer();
  const token = await server.device();
  const answers = [gotIt("root"), ask("How loud?"), ask("How loud?")];
  await send(server, token, answers);
  const rows = (await server.storage.load("harbour-board")).length;
  expect((await send(server, token, answers)).every(({ taken }) => taken)).toBe(true);
  expect((await send(server, token, [ask("Something else", { song: "umbrella" })]))[0]?.taken).toBe(true);
  expect((await server.storage.load("harbour-board")).length).toBe(rows);
  const board = await server.stored();
  expect([...board.songs.values()].flatMap(({ questions }) => questions).map(({ text }) => text)).toEqual([
    "How loud?",
  ]);
});

test("[DEP-1] only what the dep is shown can be answered; what is refused says why and holds nothing else up", async () => {
  const server = await startDepServer();
  const token = await server.device();
  const outcomes = await send(server, token, [
    gotIt("fill"),
    gotIt("elsewhere"),
    gotIt("cover"),
    gotIt("part:diesel:bass", "part"),
    ask("And this one?", { song: "kettle" }, "other-song"),
    ask("And this?", { card: "fill" }, "other-card"),
    ask("   ", {}, "nothing"),
    gotIt("root"),
  ]);
  expect(outcomes.map(({ taken }) => taken)).toEqual([false, false, false, false, false, false, false, true]);
  for (const outcome of outcomes) if (!outcome.taken) expect(outcome.sentence).toMatch(/^[A-Z].*\.$/);
  const board = await server.stored();
  const marked = [...board.songs.values()].flatMap(({ statuses }) =>
    [...statuses].filter(([, by]) => by.has("karim")).map(([card]) => card),
  );
  expect(marked).toEqual(["root"]);
  expect([...board.songs.values()].flatMap(({ questions }) => questions)).toEqual([]);
});

test("[DEP-1] leaders, members and guests are told to open the board instead", async () => {
  const server = await startDepServer();
  for (const role of ["leader", "member", "guest"] as const) {
    const bearer = await server.device({ role });
    for (const route of ["GET /api/gig", "POST /api/gig/answers"])
      expect(
        await refusal(server.origin, route, {
          bearer,
          ...(route.startsWith("P") ? { body: { answers: [] } } : {}),
        }),
      ).toMatchObject({ status: 403, error: "not-a-dep" });
  }
});

test("[DEP-1] a dep's token opens neither the board nor its lists, and naming a role or a gig oneself changes nothing", async () => {
  const server = await startDepServer();
  const bearer = await server.device();
  const raw = await connectRaw(`${server.syncUrl}/harbour-board`, bearer);
  expect(await raw.closed).toMatchObject({ code: 4416 });
  expect(await refusal(server.origin, "GET /api/links", { bearer })).toMatchObject({ status: 403 });
  const forged = { answers: [gotIt("root")], role: "leader", gig: "cellar", memberId: "lucia" };
  expect(await refusal(server.origin, "POST /api/gig/answers", { bearer, body: forged })).toMatchObject({
    status: 400,
    error: "bad-request",
  });
  for (const level of [0, 2, 3])
    expect(
      await refusal(server.origin, "POST /api/gig/answers", {
        bearer,
        body: { answers: [{ ...gotIt("root"), level }] },
      }),
    ).toMatchObject({ status: 400 });
  expect((await server.stored()).songs.get("diesel")?.statuses.get("root")?.has("karim") ?? false).toBe(
    false,
  );
});

test("[DEP-1] another board's token, a gig of another band, a gig or a person taken off: clear refusals", async () => {
  const server = await startDepServer();
  const other = await createBoard(server.origin, "Another band");
  expect(await refusal(server.origin, "GET /api/gig", { bearer: other.token })).toMatchObject({
    error: "not-a-dep",
  });
  const elsewhere = await server.device({ board: other.board });
  for (const [details, status, error] of [
    [{ gig: "no such gig" }, 404, "gig-gone"],
    [{ memberId: "nobody" }, 404, "gig-gone"],
    [{ gig: null }, 403, "no-gig"],
    [{ memberId: null }, 403, "no-gig"],
    [{ revokedAt: 1 }, 401, "device-removed"],
  ] as const)
    expect(
      await refusal(server.origin, "GET /api/gig", { bearer: await server.device(details) }),
    ).toMatchObject({
      status,
      error,
    });
  expect(await refusal(server.origin, "GET /api/gig", { bearer: elsewhere })).toMatchObject({
    error: "gig-gone",
  });
  expect(await refusal(server.origin, "GET /api/gig", { bearer: "x".repeat(22) })).toMatchObject({
    status: 401,
  });
  expect(await refusal(server.origin, "GET /api/gig")).toMatchObject({
    status: 401,
    error: "unknown-device",
  });
  const gone = await send(server, await server.device({ gig: "no such gig" }), [gotIt("root")]);
  expect(gone).toMatchObject([
    { taken: false, sentence: expect.stringContaining("not on the band's board") },
  ]);
});

test("after the end of the way in: 401, for looking and for answering", async () => {
  const server = await startDepServer();
  const bearer = await server.device({ expiresAt: Date.UTC(2031, 4, 6, 18, 30) + 1000 });
  expect((await look(server, bearer)).status).toBe(200);
  server.advance(1000);
  for (const route of ["GET /api/gig", "POST /api/gig/answers"])
    expect(
      await refusal(server.origin, route, {
        bearer,
        ...(route.startsWith("P") ? { body: { answers: [] } } : {}),
      }),
    ).toMatchObject({ status: 401, error: "way-in-ended" });
});

test("[SRV-3] oversized and malformed answers are refused whole", async () => {
  const server = await startDepServer();
  const bearer = await server.device();
  const posted = (body: unknown) => refusal(server.origin, "POST /api/gig/answers", { bearer, body });
  expect(await posted({ answers: [ask("x".repeat(501))] })).toMatchObject({ status: 400 });
  expect(
    await posted({ answers: Array.from({ length: 21 }, (_, n) => gotIt("root", `g${n}`)) }),
  ).toMatchObject({
    status: 400,
  });
  expect(await posted({ answers: [{ ...gotIt("root"), id: "a/b" }] })).toMatchObject({ status: 400 });
  expect(await posted({ answers: [{ id: "x", kind: "lock in", card: "root" }] })).toMatchObject({
    status: 400,
  });
  expect(await posted({ answers: [ask("x".repeat(20_000))] })).toMatchObject({
    status: 413,
    error: "too-large",
  });
  expect(await posted("not json")).toMatchObject({ status: 400 });
  expect((await server.stored()).songs.get("diesel")?.questions).toEqual([]);
});

test("a dep's device looks and sends only so often a minute, and asks only so many questions", async () => {
  const server = await startDepServer();
  const bearer = await server.device();
  const statuses: number[] = [];
  for (let n = 0; n < 121; n++) statuses.push((await look(server, bearer)).status);
  expect([statuses[119], statuses[120]]).toEqual([200, 429]);
  expect((await look(server, await server.device())).status).toBe(200);
  let refused: string | null = null;
  for (let batch = 0; batch < 6; batch++) {
    const questions = Array.from({ length: 20 }, (_, n) =>
      ask(`Question ${batch}.${n}`, {}, `q${batch}-${n}`),
    );
    for (const outcome of await send(server, bearer, questions))
      if (!outcome.taken) refused ??= outcome.sentence;
  }
  expect(refused).toMatch(/100 questions/);
  expect((await server.stored()).songs.get("diesel")?.questions).toHaveLength(100);
  let last: ApiError | DepAnswered = { outcomes: [] };
  for (let n = 0; n < 55; n++)
    last = (
      await call<ApiError | DepAnswered>(server.origin, "POST /api/gig/answers", {
        bearer,
        body: { answers: [] },
      })
    ).body;
  expect(last).toMatchObject({ error: "too-many" });
});

test("what the band answers and changes over its sockets shows at the next look", async () => {
  const server = await startDepServer();
  const bearer = await server.device({ id: "dep-phone" });
  await send(server, bearer, [ask("Who counts in?"), gotIt("root")]);
  expect((await look(server, bearer)).body.songs[0]?.questions).toMatchObject([
    { text: "Who counts in?", answers: [] },
  ]);
  const leader = connectStock(
    server.syncUrl,
    "harbour-board",
    await server.device({ role: "leader", memberId: "lucia" }),
  );
  await leader.synced;
  const runner = createRunner(createBoardDocument(leader.doc));
  const author = { member: "lucia", writer: "laptop", role: "leader" } as const;
  const now = Date.UTC(2031, 4, 7);
  const by = (id: string) => ({ id, now, author, newId: idsFrom(id) });
  runner.run(answerQuestion, { question: "dep.dep-phone.a1", text: "The drums." }, by("r1"));
  runner.run(dropSong, { gig: "harbour", song: "umbrella" }, by("r2"));
  await leader.saved();
  const { songs } = (await look(server, bearer)).body;
  expect(songs.map(({ title }) => title)).toEqual(["Marzipan Diesel"]);
  expect(songs[0]?.questions[0]?.answers).toEqual([{ text: "The drums.", by: "Lucía Borrasco" }]);
});

test("nothing is taken while the disk refuses, and the dep is told to try again", async () => {
  const storage = createFaultyStorage();
  const server = await startDepServer({ storage });
  const bearer = await server.device();
  await look(server, bearer);
  storage.full = true;
  const request = { bearer, body: { answers: [gotIt("root")] } };
  expect(await refusal(server.origin, "POST /api/gig/answers", request)).toMatchObject({
    status: 503,
    error: "not-stored",
  });
  storage.full = false;
  expect(await send(server, bearer, [gotIt("root")])).toEqual([{ id: "g-root", taken: true }]);
  expect((await look(server, bearer)).body.songs[0]?.details[0]?.gotIt).toBe(true);
});
