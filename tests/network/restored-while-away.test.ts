/** The leader puts the board back while a phone is away, or while the leader's own phone is. */
import { describe, expect, test } from "vitest";
import { createValueStore, type StoredValues } from "#shared/document/stored-values.ts";
import { restoreWrites } from "#shared/history/restore-writes.ts";
import { type BandNight, bandNight, NIGHT } from "#tests/support/band-night.ts";
import { readingOf } from "#tests/support/board-reading.ts";
import type { Phone } from "#tests/support/phone.ts";

const MINUTE = 60_000;

/** Two phones that agree on a song with two details, marked by Lucía. */
const together = async (night: BandNight) => {
  const leader = await night.open("leader");
  const other = await night.open("other");
  await night.network.drain();
  const song = night.run(leader, "addSong", { title: "Marzipan Diesel", length: 200, tempo: 112 }).id;
  const person = night.run(leader, "addPerson", { name: "Lucía Borrasco" }).id;
  const choke = night.run(leader, "addDetail", { song, text: "Choke on 4-and" }).id;
  const push = night.run(leader, "addDetail", { song, text: "Push into the chorus" }).id;
  for (const card of [choke, push]) night.run(leader, "markDetail", { card, member: person, level: 1 });
  await night.network.drain();
  night.network.elapse(MINUTE);
  return { leader, other, song, person, choke, push };
};

const momentOn = (phone: Phone): StoredValues => createValueStore(phone.session().document);

const restoreTo = (night: BandNight, phone: Phone, moment: StoredValues) => {
  const writes = restoreWrites(phone.session().document, moment);
  return night.run(phone, "restoreBoard", { moment: NIGHT, writes });
};

const sameBoard = async (night: BandNight, ...phones: readonly Phone[]) => {
  await night.network.settle();
  const [first, ...others] = phones.map((phone) => phone.store().board());
  if (first === undefined) throw new Error("no phone");
  for (const other of others) expect(other).toEqual(first);
  return first;
};

describe("[HIST-4] a board put back while a phone was away", () => {
  test("keeps what the phone did, and stays put back", async () => {
    const night = bandNight();
    const { leader, other, song, person, choke, push } = await together(night);
    night.network.cut("other");
    const moment = momentOn(leader);
    night.network.elapse(MINUTE);

    // Away, before the restore: about one thing that will be restored, and about others that will not.
    night.run(other, "markDetail", { card: choke, member: person, level: 2 });
    night.run(other, "rewordDetail", { card: choke, field: "text", text: "Choke, both hands" });
    night.run(other, "addDetail", { song, text: "Let the last chord ring" });
    const take = { song, kind: "run", seats: [], feel: "clean" };
    night.run(other, "logTake", { ...take, occasion: "r:2026-03-04", at: NIGHT + MINUTE });
    night.network.elapse(MINUTE);

    const ill = night.run(leader, "addSong", { title: "Umbrella Season" }).id;
    night.run(leader, "reviseSong", { song, fields: { tempo: 140 } });
    for (const card of [choke, push]) night.run(leader, "markDetail", { card, member: person, level: 3 });
    for (const card of [choke, push])
      night.run(leader, "rewordDetail", { card, field: "text", text: "Whatever" });
    night.run(leader, "logTake", { ...take, occasion: "r:2026-03-03", at: NIGHT });
    night.network.elapse(MINUTE);
    restoreTo(night, leader, moment);
    await night.network.drain();
    night.network.elapse(MINUTE);

    // Away, after the restore and without knowing of it.
    night.run(other, "markDetail", { card: push, member: person, level: 2 });
    const board = await sameBoard(night, leader, other);
    const file = board.songs.get(song);
    const card = (id: string) => file?.cards.find((found) => found.id === id);
    expect(board.songs.has(ill)).toBe(false);
    expect(file?.song.tempo).toBe(112);
    expect(file?.statuses.get(choke)?.get(person)?.level).toBe(1);
    expect(file?.statuses.get(push)?.get(person)?.level).toBe(2);
    expect(
      card(choke)
        ?.versions.text.map(({ text }) => text)
        .sort(),
    ).toEqual(["Choke on 4-and", "Choke, both hands"]);
    expect(card(push)?.text).toBe("Push into the chorus");
    expect(file?.cards.some(({ text }) => text === "Let the last chord ring")).toBe(true);
    expect(file?.takes.map(({ writers }) => writers)).toEqual([["other"]]);
  });

  test("[SYNC-3] is put back again from the outbox when the leader's phone lost it, and leaves alone what came since", async () => {
    const night = bandNight();
    const { leader, other, song, choke, person } = await together(night);
    const moment = momentOn(leader);
    night.run(leader, "reviseSong", { song, fields: { tempo: 140, key: "Fm" } });
    night.run(leader, "markDetail", { card: choke, member: person, level: 0 });
    night.run(leader, "removeDetail", { id: choke });
    await night.network.drain();
    night.network.cut("leader");
    night.network.elapse(MINUTE);
    restoreTo(night, leader, moment);
    leader.disk.updates = [];
    await leader.restart();
    night.network.elapse(MINUTE);
    night.run(other, "reviseSong", { song, fields: { key: "G" } });
    const board = await sameBoard(night, leader, other);
    expect(board.songs.get(song)?.song).toMatchObject({ tempo: 112, key: "G" });
    expect(board.songs.get(song)?.cards.some(({ id }) => id === choke)).toBe(true);
    expect(board.songs.get(song)?.statuses.get(choke)?.get(person)?.level).toBe(1);
    expect(leader.session().outbox.saveState()).toMatchObject({ unsent: 0, refused: [] });
  });

  test("is taken back by its leader like any change", async () => {
    const night = bandNight();
    const { leader, other, song } = await together(night);
    const moment = momentOn(leader);
    night.run(leader, "reviseSong", { song, fields: { tempo: 140 } });
    night.run(leader, "addSong", { title: "Umbrella Season" });
    const before = readingOf(await sameBoard(night, leader, other));
    const change = restoreTo(night, leader, moment);
    expect(readingOf(await sameBoard(night, leader, other))).not.toEqual(before);
    const undone = leader.store().undo(change);
    expect(undone.ok).toBe(true);
    expect(readingOf(await sameBoard(night, leader, other))).toEqual(before);
  });
});
