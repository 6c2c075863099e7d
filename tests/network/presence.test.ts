/** Who is where, over the real connection and the real server with a network in between. */
import { expect, onTestFinished, test } from "vitest";
import { createIdentity } from "#client/store/identity.ts";
import type { PresenceStore } from "#client/store/presence.ts";
import { createPresenceStore } from "#client/store/presence-store.ts";
import { openPresence } from "#client/sync/presence-channel.ts";
import type { Role } from "#shared/protocol/api.ts";
import { type BandNight, bandNight } from "#tests/support/band-night.ts";
import type { Phone } from "#tests/support/phone.ts";

const presenceOf = (phone: Phone, member: string | null, role: Role = "member"): PresenceStore => {
  const identity = createIdentity({ member, writer: phone.name, role });
  const channel = openPresence(phone.session().provider);
  const store = createPresenceStore(channel, identity);
  onTestFinished(() => {
    store.close();
    channel.close();
  });
  return store;
};

/** Lets moves be told and delivered. */
const pass = async ({ network }: BandNight, ms = 1000): Promise<void> => {
  network.elapse(ms);
  await network.drain();
  network.elapse(1000);
  await network.drain();
};

const who = (store: PresenceStore): readonly string[] =>
  store.everybody().map(({ member, song, chair }) => `${member} ${song}/${chair}`);

const two = async (night: BandNight) => {
  const [left, right] = [await night.open("left"), await night.open("right")];
  await night.network.drain();
  return { left, right, anneli: presenceOf(left, "anneli"), priya: presenceOf(right, "priya") };
};

test("people see each other come, move and go", async () => {
  const night = bandNight();
  const { left, anneli, priya } = await two(night);
  await pass(night);
  expect(who(priya)).toEqual(["anneli null/null"]);
  const leave = anneli.stand({ screen: "part", song: "s", chair: "drums" });
  await pass(night);
  expect(priya.at("s", "drums").map(({ member }) => member)).toEqual(["anneli"]);
  leave();
  await pass(night);
  expect(priya.at("s", "drums")).toEqual([]);
  await left.close();
  await pass(night);
  expect(who(priya)).toEqual([]);
});

test("a person whose connection broke is gone, and back as soon as it stands again", async () => {
  const night = bandNight();
  const { anneli, priya } = await two(night);
  anneli.stand({ screen: "room", song: "s", chair: null });
  await pass(night);
  night.network.cut("left");
  await pass(night);
  expect(who(priya)).toEqual([]);
  expect(who(anneli), "nobody is seen without a connection").toEqual([]);
  for (let again = 0; again < 3; again++) {
    night.network.heal("left");
    await night.network.settle();
    await pass(night);
    expect(who(priya)).toEqual(["anneli s/null"]);
    expect(who(anneli)).toEqual(["priya null/null"]);
    night.network.cut("left");
    await pass(night);
    expect(who(priya)).toEqual([]);
  }
});

test("a restart of the server forgets nobody who is still there", async () => {
  const night = bandNight();
  const { anneli, priya } = await two(night);
  await pass(night);
  await night.network.restartServer();
  await night.network.settle();
  await pass(night);
  expect([who(priya), who(anneli)]).toEqual([["anneli null/null"], ["priya null/null"]]);
});

test("a quiet evening neither loses people nor connections, and a page that is put away is gone", async () => {
  const night = bandNight();
  const { anneli, priya, left } = await two(night);
  for (let minute = 0; minute < 10; minute++) await pass(night, 10_000);
  expect(who(priya)).toEqual(["anneli null/null"]);
  expect(left.session().outbox.saveState().connection).toBe("connected");
  anneli.setAway(true);
  await pass(night);
  expect(who(priya)).toEqual([]);
  expect(who(anneli)).toEqual(["priya null/null"]);
  for (let minute = 0; minute < 10; minute++) await pass(night, 10_000);
  expect(left.session().outbox.saveState().connection).toBe("connected");
});

test("[SYNC-4] the document's client id may change while presence goes on", async () => {
  const night = bandNight();
  const { left, anneli, priya } = await two(night);
  await pass(night);
  left.session().ydoc.clientID = 4711;
  anneli.stand({ screen: "song", song: "s", chair: null });
  await pass(night);
  expect(who(priya)).toEqual(["anneli s/null"]);
  expect(() => left.session().reconnect()).not.toThrow();
  await night.network.settle();
  await pass(night);
  expect(who(priya)).toEqual(["anneli s/null"]);
});

test("a guest sees the others and is not shown", async () => {
  const night = bandNight();
  const leader = await night.open("leader");
  const guest = await night.open("guest", { role: "guest" });
  await night.network.drain();
  const seen = presenceOf(leader, "anneli", "leader");
  const looking = presenceOf(guest, null, "guest");
  looking.stand({ screen: "board", song: null, chair: null });
  await pass(night);
  expect(who(looking)).toEqual(["anneli null/null"]);
  expect(who(seen)).toEqual([]);
});
