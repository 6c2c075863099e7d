import { expect, test } from "vitest";
import type { BoardGrant } from "#shared/protocol/api.ts";
import { call } from "#tests/support/api-client.ts";
import { createBoard, createLink, joinAs, refusal } from "#tests/support/boards.ts";
import { connectRaw } from "#tests/support/raw-client.ts";
import { connectStock } from "#tests/support/stock-client.ts";
import { startTestServer } from "#tests/support/test-server.ts";

const serverWithDemo = () =>
  startTestServer({ seedDemo: (doc) => void doc.getMap("cards").set("intro", "seeded") });

const enter = async (origin: string): Promise<BoardGrant> =>
  (await call<BoardGrant>(origin, "POST /api/demo")).body;

test("everybody who opens the demo leads the same seeded board, each on a device of their own", async () => {
  const server = await serverWithDemo();
  const [first, second] = await Promise.all([enter(server.origin), enter(server.origin)]);
  expect(first.board).toBe(second.board);
  expect(first.token).not.toBe(second.token);
  expect(first.role).toBe("leader");
  const laptop = connectStock(server.syncUrl, first.board, first.token);
  await laptop.sees("intro", "seeded");
});

test("starting afresh sends everybody out with its own code and makes a new board", async () => {
  const server = await serverWithDemo();
  const old = await enter(server.origin);
  const laptop = connectStock(server.syncUrl, old.board, old.token);
  await laptop.sees("intro", "seeded");
  laptop.set("intro", "scribbled");
  await laptop.saved();
  const told = laptop.closed();
  const reset = await call<BoardGrant>(server.origin, "POST /api/demo/reset", { bearer: old.token });
  expect(reset.status).toBe(201);
  expect(reset.body.board).not.toBe(old.board);
  expect(await told).toBe(4410);
  expect(laptop.provider.shouldConnect).toBe(false);
  const fresh = connectStock(server.syncUrl, reset.body.board, reset.body.token);
  await fresh.sees("intro", "seeded");
  expect((await enter(server.origin)).board).toBe(reset.body.board);
});

test("devices and links of the old demo are told why they no longer work", async () => {
  const server = await serverWithDemo();
  const old = await enter(server.origin);
  const link = await createLink(server.origin, old, "member");
  await call(server.origin, "POST /api/demo/reset", { bearer: old.token });
  const gone = { status: 410, error: "demo-restarted" };
  expect(await refusal(server.origin, "GET /api/session", { bearer: old.token })).toMatchObject(gone);
  expect(await refusal(server.origin, "POST /api/join", { bearer: link.secret })).toMatchObject(gone);
  expect(await refusal(server.origin, "POST /api/demo/reset", { bearer: old.token })).toMatchObject(gone);
  const late = await connectRaw(`${server.syncUrl}/${old.board}`, old.token);
  expect((await late.closed).code).toBe(4410);
  expect(await server.storage.load(old.board)).toEqual([]);
});

test("only a leader of the demo board starts it afresh", async () => {
  const server = await serverWithDemo();
  const demo = await enter(server.origin);
  const member = await joinAs(server.origin, demo, "member");
  const band = await createBoard(server.origin);
  const reset = (bearer: string) => refusal(server.origin, "POST /api/demo/reset", { bearer });
  expect(await reset(member.token)).toMatchObject({ status: 403, error: "leaders-only" });
  expect(await reset(band.token)).toMatchObject({ status: 404, error: "no-demo" });
  expect((await enter(server.origin)).board).toBe(demo.board);
});

test("without a demo band there is none", async () => {
  const plain = await startTestServer();
  expect(await refusal(plain.origin, "POST /api/demo")).toMatchObject({ status: 404, error: "no-demo" });
  const off = await startTestServer({ seedDemo: () => undefined, settings: { demo: false } });
  expect(await refusal(off.origin, "POST /api/demo")).toMatchObject({ status: 404, error: "no-demo" });
});
