/** Seasons and roles change under a device with a real IndexedDB behind it (fake-indexeddb follows the W3C API 3.0). */
import "fake-indexeddb/auto";
import { describe, expect, onTestFinished, test, vi } from "vitest";
import { type BandServer, startBandServer } from "#tests/support/band-server.ts";
import { type FollowingOptions, type FollowingPhone, openFollowing } from "#tests/support/following-phone.ts";

const open = async (options: FollowingOptions): Promise<FollowingPhone> => {
  const phone = await openFollowing(options);
  onTestFinished(() => phone.close());
  return phone;
};

/** Delivers what there is until it holds. */
const until = ({ network }: BandServer, holds: () => void): Promise<void> =>
  vi.waitFor(
    async () => {
      await network.drain();
      holds();
    },
    { timeout: 15_000, interval: 5 },
  );

const allSaved = (...phones: FollowingPhone[]) =>
  expect(phones.map((phone) => [phone.unsent(), phone.open().session.outbox.saveState().connection])).toEqual(
    phones.map(() => [0, "connected"]),
  );

/** A leader and a member, both connected. */
const band = async () => {
  const server = await startBandServer();
  const leader = await open({ server, name: "leader", grant: await server.admit("leader") });
  const grant = await server.admit("member", "priya");
  const phone = await open({ server, name: "phone", grant });
  await until(server, () => allSaved(leader, phone));
  return { server, leader, phone, grant };
};

const databases = async (): Promise<readonly string[]> =>
  (await indexedDB.databases()).map(({ name = "" }) => name);

describe("[SYNC-6] when the season is closed", () => {
  test("everybody goes on in the new document, on the same screens, and the old copy goes", async () => {
    const { server, leader, phone } = await band();
    leader.run("addSong", { title: "Marzipan Diesel" });
    await until(server, () => allSaved(leader, phone));
    await server.closeSeason();
    const document = await server.document();
    await until(server, () => {
      allSaved(leader, phone);
      expect(phone.open().known.document).toBe(document);
    });
    expect(phone.titles()).toEqual(["Marzipan Diesel"]);
    expect(phone.device.board(server.board)?.document).toBe(document);
    leader.run("addSong", { title: "Paper Lantern Tax" });
    await until(server, () => expect(phone.titles()).toEqual(["Marzipan Diesel", "Paper Lantern Tax"]));
    await until(server, () => allSaved(leader, phone));
    await vi.waitFor(async () =>
      expect(await databases()).not.toContain(`tightrow.board.${phone.device.writer}.${server.board}`),
    );
  });

  test("what was not sent is run again there, once, under the same ids", async () => {
    const { server, leader, phone } = await band();
    server.network.cut("phone");
    const id = phone.run("addSong", { title: "Marzipan Diesel" });
    await server.closeSeason();
    await until(server, () => allSaved(leader));
    server.network.heal("phone");
    await until(server, () => {
      allSaved(leader, phone);
      expect(leader.titles()).toEqual(["Marzipan Diesel"]);
    });
    expect(phone.open().session.outbox.stateOf(id)).toBe("saved");
    expect(phone.open().known.document).toBe(await server.document());
  });

  test("months and several seasons later, after the page was closed, nothing is lost", async () => {
    const { server, leader, phone } = await band();
    server.network.cut("phone");
    phone.run("addSong", { title: "Marzipan Diesel" });
    await phone.close();
    for (const title of ["Paper Lantern Tax", "Gravel Choir"]) {
      await server.closeSeason();
      const document = await server.document();
      await until(server, () => expect(leader.open().known.document).toBe(document));
      leader.run("addSong", { title });
      await until(server, () => allSaved(leader));
    }
    const later = await open({ server, name: "phone.later", device: phone.device });
    const all = ["Gravel Choir", "Marzipan Diesel", "Paper Lantern Tax"];
    await until(server, () => {
      allSaved(leader, later);
      expect([leader.titles(), later.titles()]).toEqual([all, all]);
    });
  });

  test("what had arrived, though nobody said so, does not undo what others made of it since", async () => {
    const { server, leader, phone } = await band();
    const { network } = server;
    phone.run("addSong", { title: "Marzipan Diesel" });
    await until(server, () => allSaved(leader, phone));
    const song = [...leader.store().board().songs.keys()][0] ?? "";
    const rename = (who: FollowingPhone, title: string) => who.run("reviseSong", { song, fields: { title } });
    rename(phone, "Marzipan Diesel (slow)");
    // The change arrives; the acknowledgement never does.
    for (let i = 0; leader.titles()[0] !== "Marzipan Diesel (slow)"; i++) {
      if (i > 500) throw new Error("The change does not arrive");
      await network.deliverOne();
      if (phone.unsent() === 0) throw new Error("The acknowledgement came first");
    }
    network.cut("phone");
    rename(leader, "Marzipan Diesel (fast)");
    await until(server, () => allSaved(leader));
    expect(phone.unsent()).toBe(1);
    await server.closeSeason();
    network.heal("phone");
    await until(server, () => {
      allSaved(leader, phone);
      expect([leader.titles(), phone.titles()]).toEqual([
        ["Marzipan Diesel (fast)"],
        ["Marzipan Diesel (fast)"],
      ]);
    });
  });

  test("what is done on the old screen while the new document is on its way is carried over", async () => {
    const { server, leader, phone } = await band();
    await server.closeSeason();
    const before = phone.open().session;
    // Close frames and the new connection are under way; each step leaves another moment for a change.
    let typed = 0;
    for (let i = 0; phone.open().session === before && i < 400; i++) {
      if (i % 3 === 0) phone.run("addSong", { title: `Song ${typed++}` });
      await server.network.deliverOne();
    }
    expect(typed).toBeGreaterThan(0);
    await until(server, () => {
      allSaved(leader, phone);
      expect(leader.titles()).toHaveLength(typed);
      expect(phone.titles()).toHaveLength(typed);
    });
  });

  test("two tabs of one device, each with something unsent, both arrive, and each change once", async () => {
    const { server, leader, phone } = await band();
    const tab = await open({ server, name: "tab", device: phone.device });
    await until(server, () => allSaved(leader, phone, tab));
    server.network.cut("phone");
    server.network.cut("tab");
    phone.run("addSong", { title: "Marzipan Diesel" });
    tab.run("addSong", { title: "Gravel Choir" });
    await server.closeSeason();
    server.network.heal("phone");
    await until(server, () => {
      allSaved(leader, phone);
      expect(leader.titles()).toContain("Marzipan Diesel");
    });
    const song = [...leader.store().board().songs].find(
      ([, file]) => file.song.title === "Marzipan Diesel",
    )?.[0];
    leader.run("reviseSong", { song, fields: { title: "Marzipan Diesel (fast)" } });
    await until(server, () => allSaved(leader, phone));
    server.network.heal("tab");
    const all = ["Gravel Choir", "Marzipan Diesel (fast)"];
    await until(server, () => {
      allSaved(leader, phone, tab);
      expect([leader.titles(), phone.titles(), tab.titles()]).toEqual([all, all, all]);
    });
  });

  test("killed at any moment of the move, the next visit finishes it", async () => {
    for (let steps = 0; steps < 24; steps += 2) {
      const { server, leader, phone } = await band();
      server.network.cut("phone");
      phone.run("addSong", { title: "Marzipan Diesel" });
      phone.run("addSong", { title: "Gravel Choir" });
      await server.closeSeason();
      await until(server, () => allSaved(leader));
      server.network.heal("phone");
      await vi.waitFor(() =>
        expect(phone.open().session.outbox.saveState().connection).not.toBe("connected"),
      );
      for (let i = 0; i < steps; i++) await server.network.deliverOne();
      // The page is gone: nothing it would still say or hear gets through.
      server.network.cut("phone");
      const next = await open({ server, name: "phone.next", device: phone.device });
      const all = ["Gravel Choir", "Marzipan Diesel"];
      await until(server, () => {
        allSaved(leader, next);
        expect([leader.titles(), next.titles()]).toEqual([all, all]);
      });
      await Promise.all([leader.close(), next.close(), phone.close()]);
    }
  }, 60_000);

  test("a browser that keeps nothing hands over within the page", async () => {
    const server = await startBandServer();
    const leader = await open({ server, name: "leader", grant: await server.admit("leader") });
    const grant = await server.admit("member");
    const phone = await open({ server, name: "phone", grant, keeps: false });
    await until(server, () => allSaved(leader, phone));
    server.network.cut("phone");
    phone.run("addSong", { title: "Marzipan Diesel" });
    await server.closeSeason();
    server.network.heal("phone");
    await until(server, () => {
      allSaved(leader, phone);
      expect(leader.titles()).toEqual(["Marzipan Diesel"]);
    });
  });

  test("with a person erased, what waits about others is sent and what waits about them says why not", async () => {
    const { server, leader, phone } = await band();
    leader.run("addPerson", { name: "Anneli Kuusvirre" });
    await until(server, () => allSaved(leader, phone));
    const anneli = [...leader.store().board().people.keys()][0] ?? "";
    server.network.cut("phone");
    phone.run("addSong", { title: "Marzipan Diesel" });
    phone.run("addChair", { name: "Keys", instrument: "keys", holder: anneli });
    await server.erasePerson(anneli);
    server.network.heal("phone");
    await until(server, () => {
      expect(leader.titles()).toEqual(["Marzipan Diesel"]);
      expect(phone.open().session.outbox.saveState()).toMatchObject({ unsent: 0, connection: "connected" });
    });
    expect(leader.store().board().people.size).toBe(0);
    for (const { holder } of leader.store().board().chairs.values()) expect(holder).toBeNull();
  });
});

describe("[SYNC-5] when a way in ends", () => {
  test("what was typed before stays here with the sentence, and is sent after joining again", async () => {
    const { server, leader, phone, grant } = await band();
    server.network.cut("phone");
    phone.run("addSong", { title: "Marzipan Diesel" });
    await server.remove(grant.token);
    server.network.heal("phone");
    await until(server, () =>
      expect(phone.open().session.outbox.saveState()).toMatchObject({
        connection: "refused",
        unsent: 1,
        reason: expect.stringMatching(/removed this device.*ask for a new link/i),
      }),
    );
    await phone.close();
    expect(leader.titles()).toEqual([]);
    const again = await open({
      server,
      name: "phone.again",
      device: phone.device,
      grant: await server.admit("member", "priya"),
    });
    await until(server, () => {
      allSaved(leader, again);
      expect(leader.titles()).toEqual(["Marzipan Diesel"]);
    });
  });

  test("the same when the season was closed before the device came back", async () => {
    const { server, leader, phone, grant } = await band();
    server.network.cut("phone");
    phone.run("addSong", { title: "Marzipan Diesel" });
    await phone.close();
    await server.remove(grant.token);
    await server.closeSeason();
    const again = await open({
      server,
      name: "phone.again",
      device: phone.device,
      grant: { ...(await server.admit("member")), document: await server.document() },
    });
    await until(server, () => {
      allSaved(leader, again);
      expect(leader.titles()).toEqual(["Marzipan Diesel"]);
    });
  });
});

describe("when a device may do less or more", () => {
  test("it takes on the new role by itself; a guest's unsent changes wait until it may write again", async () => {
    const { server, leader, phone, grant } = await band();
    server.network.cut("phone");
    phone.run("addSong", { title: "Marzipan Diesel" });
    await server.changeRole(grant.token, "guest");
    server.network.heal("phone");
    await until(server, () => {
      expect(phone.open().known.role).toBe("guest");
      expect(phone.open().session.outbox.saveState()).toMatchObject({ connection: "connected", unsent: 1 });
    });
    await phone.close();
    expect(leader.titles()).toEqual([]);
    await server.changeRole(grant.token, "member");
    const again = await open({ server, name: "phone.again", device: phone.device });
    await until(server, () => {
      allSaved(leader, again);
      expect(leader.titles()).toEqual(["Marzipan Diesel"]);
    });
  });

  test("a connected one follows at once, and keeps its screens' store in step", async () => {
    const { server, leader, phone, grant } = await band();
    await server.changeRole(grant.token, "guest");
    await until(server, () => {
      expect(phone.open().known.role).toBe("guest");
      expect(phone.store().identity.author().role).toBe("guest");
      allSaved(leader, phone);
    });
    leader.run("addSong", { title: "Marzipan Diesel" });
    await until(server, () => expect(phone.titles()).toEqual(["Marzipan Diesel"]));
    expect(() => phone.run("addSong", { title: "Not mine to add" })).toThrow();
    await server.changeRole(grant.token, "leader");
    await until(server, () => expect(phone.store().identity.author().role).toBe("leader"));
    phone.run("addSong", { title: "Gravel Choir" });
    await until(server, () => expect(leader.titles()).toEqual(["Gravel Choir", "Marzipan Diesel"]));
  });
});
