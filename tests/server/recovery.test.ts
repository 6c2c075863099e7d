import { describe, expect, test } from "vitest";
import type { BoardGrant, NewBoardGrant, RecoveryCode } from "#shared/protocol/api.ts";
import { groupRecoveryCode } from "#shared/protocol/recovery-code.ts";
import { call } from "#tests/support/api-client.ts";
import { createBoard, joinAs, refusal } from "#tests/support/boards.ts";
import { startTestServer } from "#tests/support/test-server.ts";

const newBoard = async (origin: string): Promise<NewBoardGrant> =>
  (await call<NewBoardGrant>(origin, "POST /api/boards", { body: { name: "Six Spare Fuses" } })).body;

const recover = (origin: string, code: string) =>
  call<NewBoardGrant & { error?: string }>(origin, "POST /api/recover", { bearer: code });

describe("[SRV-13] recovery codes", () => {
  test("one comes with a new board, and is stored as a hash only", async () => {
    const server = await startTestServer();
    const { recoveryCode, board } = await newBoard(server.origin);
    // 128 bits are 26 symbols of base 32, of which the first holds three (https://www.crockford.com/base32.html).
    expect(recoveryCode).toMatch(/^[0-7][0-9A-HJKMNP-TV-Z]{25}$/);
    expect((await server.storage.board(board))?.recoveryHash).toMatch(/^[\w-]{43}$/);
    expect(await server.storage.boardByRecovery(recoveryCode)).toBeNull();
    expect(JSON.stringify(server.logged)).not.toContain(recoveryCode);
  });

  test("it lets a device in as a leader when all others are lost, once, and gives the next one", async () => {
    const server = await startTestServer();
    const { recoveryCode, board, token } = await newBoard(server.origin);
    const typed = groupRecoveryCode(recoveryCode).toLowerCase();
    const { status, body } = await recover(server.origin, typed);
    expect([status, body.board, body.role]).toEqual([201, board, "leader"]);
    expect(body.recoveryCode).not.toBe(recoveryCode);
    expect((await call(server.origin, "GET /api/links", { bearer: body.token })).status).toBe(200);
    expect((await call(server.origin, "GET /api/links", { bearer: token })).status).toBe(200);
    expect(await refusal(server.origin, "POST /api/recover", { bearer: recoveryCode })).toMatchObject({
      status: 401,
      error: "unknown-code",
    });
    expect((await recover(server.origin, body.recoveryCode)).status).toBe(201);
  });

  test("an answer that got lost takes nobody's way in: the code works until its device has shown up", async () => {
    const server = await startTestServer();
    const { recoveryCode, board } = await newBoard(server.origin);
    const lost = (await recover(server.origin, recoveryCode)).body;
    const again = (await recover(server.origin, recoveryCode)).body;
    expect(again.role).toBe("leader");
    // What the lost answer let in is closed again.
    expect((await call(server.origin, "GET /api/session", { bearer: lost.token })).status).toBe(401);
    expect((await call(server.origin, "GET /api/session", { bearer: again.token })).status).toBe(200);
    expect((await recover(server.origin, recoveryCode)).status).toBe(401);
    expect((await recover(server.origin, lost.recoveryCode)).status).toBe(401);
    const live = (await server.storage.devices(board)).filter(({ revokedAt }) => revokedAt === null);
    expect(live).toHaveLength(2);
  });

  test("a lost answer is made good for ten minutes only", async () => {
    const server = await startTestServer();
    const { recoveryCode } = await newBoard(server.origin);
    await recover(server.origin, recoveryCode);
    server.advance(10 * 60_000);
    expect((await recover(server.origin, recoveryCode)).status).toBe(401);
  });

  test("a code used twice at once lets one device in", async () => {
    const server = await startTestServer();
    const { recoveryCode, board } = await newBoard(server.origin);
    await Promise.all([recover(server.origin, recoveryCode), recover(server.origin, recoveryCode)]);
    const live = (await server.storage.devices(board)).filter(({ revokedAt }) => revokedAt === null);
    expect(live).toHaveLength(2);
  });

  test("a leader makes a new one, and the old one is void; members and strangers make none", async () => {
    const server = await startTestServer();
    const leader = await newBoard(server.origin);
    const { body } = await call<RecoveryCode>(server.origin, "POST /api/recovery", { bearer: leader.token });
    expect((await recover(server.origin, leader.recoveryCode)).status).toBe(401);
    const member = await joinAs(server.origin, leader, "member");
    expect(await refusal(server.origin, "POST /api/recovery", { bearer: member.token })).toMatchObject({
      error: "leaders-only",
    });
    expect((await recover(server.origin, body.recoveryCode)).status).toBe(201);
  });

  test("guessing is bounded, and neither a link nor a token is a code", async () => {
    const server = await startTestServer({ settings: { triesPerMinute: 4 } });
    const leader = await createBoard(server.origin);
    const tries = [leader.token, "0".repeat(26), "U".repeat(26)];
    for (const code of tries) expect((await recover(server.origin, code)).body.error).toBe("unknown-code");
    expect((await recover(server.origin, "1".repeat(26))).body.error).toBe("too-many");
  });

  test("the demo has none", async () => {
    const server = await startTestServer({ seedDemo: () => {} });
    const { body } = await call<BoardGrant>(server.origin, "POST /api/demo");
    expect(body).not.toHaveProperty("recoveryCode");
    expect((await server.storage.board(body.board))?.recoveryHash).toBeNull();
  });
});
