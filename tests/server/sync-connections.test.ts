import { expect, test } from "vitest";
import { createCapabilityAccess } from "#server/access/capability-access.ts";
import { createConnectionGate } from "#server/sync/connection-gate.ts";
import { call } from "#tests/support/api-client.ts";
import { createBoard, joinAs, refusal } from "#tests/support/boards.ts";
import { openAccess } from "#tests/support/open-access.ts";
import { connectRaw } from "#tests/support/raw-client.ts";
import { startTestServer } from "#tests/support/test-server.ts";

const openServer = (settings = {}) => startTestServer({ access: () => openAccess, settings });

/** The code a connection is closed with; "open" once it has been asked for its state. */
const outcome = async (url: string, headers: Record<string, string> = {}): Promise<number | "open"> => {
  const client = await connectRaw(url, "member", { headers });
  return Promise.race([
    client.frame(0, 0).then(() => "open" as const),
    client.closed.then(({ code }) => code),
  ]);
};

test("[SRV-6] a board takes so many devices, the next is sent away to come again, and takes the place of one that left", async () => {
  const server = await openServer({ boardConnections: 2 });
  const first = await connectRaw(`${server.syncUrl}/fuses`, "member");
  expect(await outcome(`${server.syncUrl}/fuses`)).toBe("open");
  expect(await outcome(`${server.syncUrl}/fuses`)).toBe(4530);
  expect(await outcome(`${server.syncUrl}/other`)).toBe("open");
  first.ws.close();
  await first.closed;
  await expect.poll(() => outcome(`${server.syncUrl}/fuses`)).toBe("open");
});

test("[SRV-6] the server takes so many devices in all, before it reads anything for them", async () => {
  const server = await openServer({ connections: 1 });
  expect(await outcome(`${server.syncUrl}/fuses`)).toBe("open");
  expect(await outcome(`${server.syncUrl}/other`)).toBe(4530);
  const health = await (await fetch(`${server.origin}/healthz`)).json();
  expect(health).toMatchObject({ boards: 1, connections: 1 });
});

test("[SRV-6] one address has so many connections behind a proxy that is trusted, this machine has any number", async () => {
  const server = await openServer({ addressConnections: 1, trustProxy: "x-forwarded-for" });
  const from = (address: string) => outcome(`${server.syncUrl}/fuses`, { "X-Forwarded-For": address });
  expect(await from("203.0.113.9")).toBe("open");
  expect(await from("203.0.113.9")).toBe(4530);
  expect(await from("203.0.113.10")).toBe("open");
  for (let i = 0; i < 3; i++) expect(await outcome(`${server.syncUrl}/fuses`)).toBe("open");
});

test("[SRV-6] tries over HTTP are counted by the address behind the trusted proxy", async () => {
  const server = await startTestServer({ settings: { triesPerMinute: 1, trustProxy: "forwarded" } });
  const from = (address: string) =>
    refusal(server.origin, "POST /api/boards", {
      body: { name: "Six Spare Fuses" },
      headers: { Forwarded: `for=${address}` },
    });
  expect([(await from("192.0.2.1")).status, (await from("192.0.2.1")).status]).toEqual([201, 429]);
  expect((await from("192.0.2.2")).status).toBe(201);
});

test("a place is given back once, however often the connection ends", () => {
  const gate = createConnectionGate({ connections: 1, boardConnections: 9, addressConnections: 9 });
  const leave = gate.enter("192.0.2.1", "fuses");
  expect([typeof leave, gate.enter("192.0.2.2", "other")]).toEqual(["function", null]);
  leave?.();
  leave?.();
  expect(gate.enter("192.0.2.2", "other")).not.toBeNull();
  expect(gate.enter("192.0.2.2", "other")).toBeNull();
});

test("[SRV-22] a device removed while it is on its way in does not get in", async () => {
  const removal: { run: (() => Promise<unknown>) | null } = { run: null };
  const server = await startTestServer({
    access: (storage) => {
      const policy = createCapabilityAccess(storage, () => 0);
      return {
        async admit(token, document) {
          const admission = await policy.admit(token, document);
          const { run } = removal;
          removal.run = null;
          // What was decided before the removal is answered after it.
          if (document !== null) await run?.();
          return admission;
        },
      };
    },
  });
  const leader = await createBoard(server.origin);
  const member = await joinAs(server.origin, leader, "member");
  const device = (await server.storage.devices(leader.board)).find(({ role }) => role === "member");
  let status = 0;
  removal.run = async () => {
    ({ status } = await call(server.origin, `DELETE /api/devices/${device?.id}`, { bearer: leader.token }));
  };
  const { closed } = await connectRaw(`${server.syncUrl}/${member.document}`, member.token);
  expect([(await closed).code, status]).toEqual([4411, 204]);
});
