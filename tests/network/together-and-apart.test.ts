/** What two people mean when they change the board without seeing each other. */
import { describe, expect, test, vi } from "vitest";
import { isDisputed } from "#shared/board/card.ts";
import { type BandNight, bandNight, NIGHT } from "#tests/support/band-night.ts";
import { sessionOn } from "#tests/support/open-access.ts";
import type { Phone } from "#tests/support/phone.ts";

const HOUR = 3_600_000;

/** Two phones that agree on one song with one detail, and are then cut off from each other. */
const apart = async (night: BandNight) => {
  const left = await night.open("left");
  const right = await night.open("right");
  await night.network.drain();
  const song = night.run(left, "addSong", { title: "Marzipan Diesel", length: 200 }).id;
  const person = night.run(left, "addPerson", { name: "Lucía Borrasco" }).id;
  const card = night.run(left, "addDetail", { song, text: "Choke on 4-and" }).id;
  await night.network.drain();
  for (const phone of [left, right]) night.network.cut(phone.name);
  night.network.elapse(2 * HOUR);
  return { left, right, song, person, card };
};

const boardsAfter = async (night: BandNight, ...phones: readonly Phone[]) => {
  await night.network.settle();
  const [first, ...others] = phones.map((phone) => phone.store().board());
  if (first === undefined) throw new Error("no phone");
  for (const other of others) expect(other).toEqual(first);
  return first;
};

describe("[SYNC-1] changes made apart", () => {
  test("a song added on one phone is seen on the other and saved", async () => {
    const night = bandNight();
    const left = await night.open("left");
    const right = await night.open("right");
    await night.network.drain();
    const added = night.run(left, "addSong", { title: "Marzipan Diesel" });
    const { outbox } = left.session();
    expect(outbox.stateOf(added.id)).toBe("on this phone");
    expect(outbox.saveState().unsent).toBe(1);
    await night.network.drain();
    expect(right.store().board().songs.get(added.id)?.song.title).toBe("Marzipan Diesel");
    expect(outbox.stateOf(added.id)).toBe("saved");
    expect(outbox.saveState()).toMatchObject({ connection: "connected", unsent: 0, reason: "" });
  });

  test("[DOC-6] one take logged on two phones is one take, with the slips of both", async () => {
    const night = bandNight();
    const { left, right, song, card } = await apart(night);
    const take = { song, occasion: "r:2026-03-04", kind: "run", seats: [] };
    const at = NIGHT + 2 * HOUR;
    night.run(left, "logTake", { ...take, at, feel: "clean", slips: [{ card, severity: 1 }] });
    night.run(right, "logTake", { ...take, at: at + 40_000, feel: "wobble", slips: [{ severity: 0.5 }] });
    const board = await boardsAfter(night, left, right);
    const takes = board.songs.get(song)?.takes ?? [];
    expect(takes).toHaveLength(1);
    expect(takes[0]).toMatchObject({ feel: "wobble", writers: ["left", "right"] });
    expect(takes[0]?.slips.map((slip) => slip.card)).toEqual([null, card]);
  });

  test("[DOC-5] two wordings written apart are both shown until somebody settles them", async () => {
    const night = bandNight();
    const { left, right, song, card } = await apart(night);
    night.run(left, "rewordDetail", { card, field: "text", text: "Choke on the and of 4" });
    night.run(right, "rewordDetail", { card, field: "text", text: "Grab the crash on 4-and" });
    const disputed = (await boardsAfter(night, left, right)).songs.get(song)?.cards[0];
    expect(disputed?.versions.text.map(({ text }) => text).sort()).toEqual([
      "Choke on the and of 4",
      "Grab the crash on 4-and",
    ]);
    night.run(right, "rewordDetail", { card, field: "text", text: "Choke on 4-and, both hands" });
    const settled = (await boardsAfter(night, left, right)).songs.get(song)?.cards[0];
    expect(settled?.text).toBe("Choke on 4-and, both hands");
    expect(isDisputed(settled?.versions.text ?? [])).toBe(false);
  });

  test("chairs, songs and sections added apart all survive, in one order", async () => {
    const night = bandNight();
    const { left, right, song } = await apart(night);
    for (const [phone, mark] of [
      [left, "L"],
      [right, "R"],
    ] as const) {
      night.run(phone, "addChair", { name: `Guitar ${mark}`, instrument: "guitar" });
      night.run(phone, "addSong", { title: `Umbrella Season ${mark}` });
      night.run(phone, "addSection", { song, name: `Verse ${mark}`, bars: 8 });
      night.run(phone, "addSection", { song, name: `Chorus ${mark}`, bars: 8 });
    }
    const board = await boardsAfter(night, left, right);
    expect(board.chairs.map(({ name }) => name).sort()).toEqual(["Guitar L", "Guitar R"]);
    expect([...board.songs.values()].map((file) => file.song.title).sort()).toEqual([
      "Marzipan Diesel",
      "Umbrella Season L",
      "Umbrella Season R",
    ]);
    const form = board.songs.get(song)?.sections.map(({ name }) => name) ?? [];
    expect([...form].sort()).toEqual(["Chorus L", "Chorus R", "Verse L", "Verse R"]);
    // Both wrote after the same last section, so both verses took one place; a move must still find room there.
    const last = board.songs.get(song)?.sections[3]?.id;
    night.run(left, "moveSection", { song, section: last, index: 1 });
    const moved = await boardsAfter(night, left, right);
    expect(moved.songs.get(song)?.sections[1]?.id).toBe(last);
  });

  test("a detail that one removes while another edits it comes back with the edit", async () => {
    const night = bandNight();
    const { left, right, song, card } = await apart(night);
    night.run(left, "removeDetail", { id: card });
    night.run(right, "rewordDetail", { card, field: "text", text: "Choke on 4-and, late" });
    night.run(right, "reviseDetail", { card, fields: { weight: "must" } });
    const gone = await boardsAfter(night, left, right);
    expect(gone.songs.get(song)?.cards).toEqual([]);
    night.run(left, "restoreDetail", { id: card });
    const board = await boardsAfter(night, left, right);
    expect(board.songs.get(song)?.cards[0]).toMatchObject({ text: "Choke on 4-and, late", weight: "must" });
  });

  test("a song that one removes while another marks its detail comes back with the mark", async () => {
    const night = bandNight();
    const { left, right, song, card, person } = await apart(night);
    night.run(left, "removeSong", { id: song });
    night.run(right, "markDetail", { card, member: person, level: 3 });
    expect((await boardsAfter(night, left, right)).songs.has(song)).toBe(false);
    night.run(left, "restoreSong", { id: song });
    const board = await boardsAfter(night, left, right);
    expect(board.songs.get(song)?.statuses.get(card)?.get(person)?.level).toBe(3);
  });

  test("a phone whose clock is a year ahead neither wins for ever nor loses its marks", async () => {
    const night = bandNight();
    const { left, right, song, card, person } = await apart(night);
    const mark = (phone: Phone, level: number) =>
      night.run(phone, "markDetail", { card, member: person, level });
    const levelAfter = async () =>
      (await boardsAfter(night, left, right)).songs.get(song)?.statuses.get(card)?.get(person)?.level;
    const today = Date.now();
    vi.setSystemTime(today + 365 * 24 * HOUR);
    mark(left, 3);
    vi.setSystemTime(today);
    expect(await levelAfter()).toBe(3);
    mark(right, 1);
    expect(await levelAfter()).toBe(1);
  });
});

describe("what the server says", () => {
  test("a guest reads along and sends nothing", async () => {
    const night = bandNight();
    const leader = await night.open("leader");
    const guest = await night.open("guest", { role: "guest" });
    await night.network.drain();
    const song = night.run(leader, "addSong", { title: "Marzipan Diesel" }).id;
    await night.network.drain();
    expect(guest.store().board().songs.has(song)).toBe(true);
    expect(() => night.run(guest, "addSong", { title: "Umbrella Season" })).toThrow(/looking on/);
    // What the device wrote in a better day must not get it thrown out.
    guest.session().document.transact("test", (set) => set("band", "name", "Not mine to say"));
    await night.network.settle();
    expect(guest.session().outbox.saveState()).toMatchObject({ connection: "connected", reason: "" });
    expect(leader.store().board().band.name).not.toBe("Not mine to say");
  });

  test("[SYNC-3] a device that is turned away stops trying, says why and keeps its changes", async () => {
    let known = true;
    const night = bandNight({
      access: {
        admit: async (_token, board) =>
          known && board !== null
            ? { ok: true, session: sessionOn(board) }
            : { ok: false, refusal: "unknown-device" },
      },
    });
    const phone = await night.open("phone");
    await night.network.drain();
    night.network.cut("phone");
    known = false;
    const { id } = night.run(phone, "addSong", { title: "Marzipan Diesel" });
    expect(phone.session().outbox.saveState().connection).toBe("offline");
    await night.network.settle();
    expect(phone.session().outbox.saveState()).toMatchObject({
      connection: "refused",
      reason: "This device is not known to the board. Open your joining link again.",
      unsent: 1,
    });
    night.network.elapse(HOUR);
    await night.network.drain();
    expect(phone.session().outbox.saveState().connection).toBe("refused");
    expect(phone.session().outbox.stateOf(id)).toBe("on this phone");
    known = true;
    phone.session().reconnect();
    await night.network.settle();
    expect(phone.session().outbox.saveState()).toMatchObject({
      connection: "connected",
      reason: "",
      unsent: 0,
    });
  });

  test("while offline the board says as of when it equalled the server's, also after a reload", async () => {
    const night = bandNight();
    const phone = await night.open("phone");
    expect(phone.session().outbox.saveState()).toMatchObject({ connection: "connecting", asOf: null });
    await night.network.drain();
    night.network.elapse(60_000);
    await night.network.drain();
    const lastHeard = phone.session().outbox.saveState().asOf;
    night.network.cut("phone");
    const { asOf, connection } = phone.session().outbox.saveState();
    expect(connection).toBe("offline");
    expect(asOf).toBeGreaterThan(lastHeard ?? Number.POSITIVE_INFINITY);
    night.network.elapse(3 * HOUR);
    await phone.restart();
    expect(phone.session().outbox.saveState().asOf).toBe(asOf);
  });

  test("a socket that never opens is given up, and the next one is used", async () => {
    const night = bandNight();
    const phone = await night.open("phone");
    night.network.hold("phone");
    night.network.elapse(10_000);
    await night.network.drain();
    expect(phone.session().outbox.saveState().connection).toBe("connecting");
    night.network.elapse(20_000);
    await night.network.drain();
    expect(phone.session().outbox.saveState().connection).toBe("connected");
  });
});
