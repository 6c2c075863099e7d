import { expect, test } from "vitest";
import type { Storage } from "#server/storage/storage.ts";
import { device, link } from "./records.ts";

/** Links, devices and private values. */
export const membersContract = (open: () => Promise<Storage>): void => {
  test("links are found by the hash of their secret and listed per board, oldest first", async () => {
    const storage = await open();
    await storage.addLink(link("horns", { expiresAt: 77 }));
    await storage.addLink(link("elsewhere", { board: "other" }));
    await storage.addLink(link("audience", { role: "guest" }));
    expect(await storage.linkBySecret("hash-of-horns")).toEqual(link("horns", { expiresAt: 77 }));
    expect(await storage.linkBySecret("hash-of-nothing")).toBeNull();
    expect((await storage.links("fuses")).map(({ id }) => id)).toEqual(["horns", "audience"]);
  });

  test("a link is withdrawn once, and only from its own board", async () => {
    const storage = await open();
    await storage.addLink(link("horns"));
    expect(await storage.revokeLink("other", "horns", 5)).toBe(false);
    expect(await storage.revokeLink("fuses", "nothing", 5)).toBe(false);
    expect(await storage.revokeLink("fuses", "horns", 5)).toBe(true);
    expect(await storage.revokeLink("fuses", "horns", 6)).toBe(true);
    expect((await storage.linkBySecret("hash-of-horns"))?.revokedAt).toBe(5);
  });

  test("a device is found by the hash of its token and can be bound to a person", async () => {
    const storage = await open();
    await storage.addDevice(device("anneli-phone"));
    expect(await storage.deviceByToken("hash-of-anneli-phone")).toEqual(device("anneli-phone"));
    await storage.changeDevice("fuses", "anneli-phone", { memberId: "anneli" });
    expect((await storage.deviceByToken("hash-of-anneli-phone"))?.memberId).toBe("anneli");
    expect(await storage.deviceByToken("hash-of-nothing")).toBeNull();
  });

  test("a link lets in as many devices as it may, also when they come at once", async () => {
    const storage = await open();
    await storage.addLink(link("horns", { maxUses: 2 }));
    await storage.addLink(link("audience"));
    const uses = await Promise.all([1, 2, 3].map(() => storage.countUse("horns")));
    expect(uses.filter(Boolean)).toHaveLength(2);
    expect((await storage.linkBySecret("hash-of-horns"))?.uses).toBe(2);
    for (let i = 0; i < 5; i++) expect(await storage.countUse("audience")).toBe(true);
    expect(await storage.countUse("nothing")).toBe(false);
  });

  test("devices are listed per board, oldest first, and a device belongs to one board", async () => {
    const storage = await open();
    await storage.addDevice(device("anneli-phone"));
    await storage.addDevice(device("elsewhere", { board: "other" }));
    await storage.addDevice(
      device("priya-tablet", { confirmed: true, gig: "gig-1", link: "horns", expiresAt: 9 }),
    );
    expect((await storage.devices("fuses")).map(({ id }) => id)).toEqual(["anneli-phone", "priya-tablet"]);
    expect(await storage.device("fuses", "priya-tablet")).toEqual(
      device("priya-tablet", { confirmed: true, gig: "gig-1", link: "horns", expiresAt: 9 }),
    );
    expect(await storage.device("other", "priya-tablet")).toBeNull();
  });

  test("a device is changed field by field, only on its own board, and removed once", async () => {
    const storage = await open();
    await storage.addDevice(device("anneli-phone", { memberId: "anneli" }));
    expect(await storage.changeDevice("other", "anneli-phone", { role: "guest" })).toBe(false);
    expect(await storage.changeDevice("fuses", "anneli-phone", { role: "member", confirmed: true })).toBe(
      true,
    );
    expect(await storage.device("fuses", "anneli-phone")).toEqual(
      device("anneli-phone", { memberId: "anneli", role: "member", confirmed: true }),
    );
    await storage.changeDevice("fuses", "anneli-phone", { memberId: null, name: "Tablet" });
    await storage.changeDevice("fuses", "anneli-phone", { revokedAt: 5 });
    await storage.changeDevice("fuses", "anneli-phone", { revokedAt: 6 });
    expect(await storage.device("fuses", "anneli-phone")).toMatchObject({
      memberId: null,
      name: "Tablet",
      revokedAt: 5,
      role: "member",
    });
  });

  test("when a device was here last is remembered", async () => {
    const storage = await open();
    await storage.addDevice(device("anneli-phone"));
    storage.touchDevice("anneli-phone", 77);
    storage.touchDevice("nothing", 77);
    expect((await storage.device("fuses", "anneli-phone"))?.lastSeenAt).toBe(77);
  });

  test("private values are one member's on one board, by key, and can be taken away", async () => {
    const storage = await open();
    await storage.setPrivate("fuses", "anneli", "range", '{"low":1}', 5);
    await storage.setPrivate("fuses", "anneli", "hours", "7", 6);
    await storage.setPrivate("fuses", "anneli", "range", '{"low":2}', 7);
    await storage.setPrivate("fuses", "priya", "range", "3", 8);
    expect(await storage.privateValues("fuses", "anneli")).toEqual([
      { key: "hours", value: "7", at: 6 },
      { key: "range", value: '{"low":2}', at: 7 },
    ]);
    await storage.setPrivate("fuses", "anneli", "range", null, 9);
    expect((await storage.privateValues("fuses", "anneli")).map(({ key }) => key)).toEqual(["hours"]);
    expect(await storage.privateValues("fuses", "priya")).toHaveLength(1);
    expect(await storage.privateValues("other", "anneli")).toEqual([]);
  });

  test("an erased member has no private values, links or devices, and others keep theirs", async () => {
    const storage = await open();
    await storage.setPrivate("fuses", "anneli", "range", "1", 5);
    await storage.setPrivate("fuses", "priya", "range", "1", 5);
    await storage.addLink(link("for-anneli", { memberId: "anneli" }));
    await storage.addLink(link("for-all"));
    await storage.addDevice(device("anneli-phone", { memberId: "anneli" }));
    await storage.addDevice(device("priya-phone", { memberId: "priya" }));
    await storage.eraseMember("fuses", "anneli", 9);
    expect(await storage.privateValues("fuses", "anneli")).toEqual([]);
    expect(await storage.privateValues("fuses", "priya")).toHaveLength(1);
    expect((await storage.links("fuses")).map(({ revokedAt }) => revokedAt)).toEqual([9, null]);
    expect((await storage.devices("fuses")).map(({ revokedAt, name }) => [revokedAt, name])).toEqual([
      [9, ""],
      [null, "Phone"],
    ]);
  });
};
