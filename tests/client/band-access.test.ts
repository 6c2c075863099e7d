/** The screens' access to bands, over the real API and a device that forgets. */
import { describe, expect, test } from "vitest";
import { createBandAccess } from "#client/app/band-access.ts";
import { createApi } from "#client/sync/api.ts";
import { openDevice } from "#client/sync/device.ts";
import { knownFromGrant } from "#client/sync/joining.ts";
import type { Result } from "#shared/lib/result.ts";
import { startTestServer } from "#tests/support/test-server.ts";

const must = <T>(result: Result<T, { readonly message: string }>): T => {
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};

/** A device that has created a band over the server at `origin`. */
const leading = async (origin: string) => {
  const api = createApi({ origin });
  const device = openDevice(null);
  const grant = must(await api.createBoard("Six Spare Fuses"));
  device.remember(knownFromGrant(grant, 1));
  const access = createBandAccess({ api, device, now: () => 5, origin });
  return { api, access, device, board: grant.board, code: grant.recoveryCode };
};

describe("the access of the screens", () => {
  test("shows what a band is to this device, and no token", async () => {
    const { origin } = await startTestServer();
    const { access, board } = await leading(origin);
    expect(access.known()).toEqual([
      {
        board,
        document: board,
        name: "Six Spare Fuses",
        role: "leader",
        member: null,
        confirmed: false,
        expiresAt: null,
        lastOpened: 1,
      },
    ]);
    expect(access.known()).toBe(access.known());
    must(await access.claimMember(board, "tomasz"));
    expect(access.known()[0]).toMatchObject({ member: "tomasz", confirmed: true });
  });

  test("takes in what the server says a device is now", async () => {
    const { origin } = await startTestServer();
    const { access, api, board } = await leading(origin);
    const link = must(await access.createLink(board, { role: "member", memberId: "priya" }));
    const phone = openDevice(null);
    const member = createBandAccess({ api, device: phone, now: () => 7, origin });
    const joined = must(await member.joinWith(link.secret));
    expect(joined).toMatchObject({ role: "member", member: "priya", confirmed: true });
    const id = must(await access.devices(board)).find(({ memberId }) => memberId === "priya")?.id ?? "";
    must(await access.changeDevice(board, id, { role: "leader" }));
    expect(must(await member.refresh(board))).toMatchObject({ role: "leader" });
    const { document } = must(await access.closeSeason(board, board));
    expect(must(await member.refresh(board))).toMatchObject({ document });
    must(await member.removeDevice(board, id));
    const refused = await member.refresh(board);
    expect(refused).toMatchObject({ ok: false, error: { retriable: false } });
    // What it knew stays, so that a new link can send what waits.
    expect(member.known()).toHaveLength(1);
  });

  test("leads again by a recovery code however it was typed, and shows the next one in groups", async () => {
    const { origin } = await startTestServer();
    const { api, board, code } = await leading(origin);
    const fresh = createBandAccess({ api, device: openDevice(null), now: () => 9, origin });
    const led = must(
      await fresh.recover(
        `  ${code
          .toLowerCase()
          .match(/.{1,4}/g)
          ?.join(" ")} `,
      ),
    );
    expect(led).toMatchObject({ board, role: "leader" });
    expect(led.recoveryCode).toMatch(/^(\w{5}-){4}\w{6}$/);
    expect(fresh.known()[0]).not.toHaveProperty("recoveryCode");
    expect(must(await fresh.newRecoveryCode(board))).toMatch(/^(\w{5}-){4}\w{6}$/);
    expect(await fresh.recover(led.recoveryCode)).toMatchObject({ ok: false });
  });

  test("keeps and shows what is private, and erases a band from here when it is erased there", async () => {
    const { origin } = await startTestServer();
    const { access, board } = await leading(origin);
    expect(await access.setPrivate(board, "notes", 1)).toMatchObject({ ok: false });
    must(await access.claimMember(board, "tomasz"));
    must(await access.setPrivate(board, "notes", { a: 1 }));
    expect(must(await access.privateValues(board))).toMatchObject([{ key: "notes", value: { a: 1 } }]);
    expect(await access.eraseBand(board, "Seven")).toMatchObject({ ok: false });
    expect(access.known()).toHaveLength(1);
    must(await access.eraseBand(board, "Six Spare Fuses"));
    expect(access.known()).toEqual([]);
    expect(await access.devices(board)).toMatchObject({ ok: false });
  });
});
