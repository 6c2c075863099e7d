/** A phone comes back after a month with five hundred changes; the others and the server have not stood still. */
import { describe, expect, test, vi } from "vitest";
import * as Y from "yjs";
import { isDisputed } from "#shared/board/card.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { migrationsCurrent } from "#shared/document/migrations/migrate.ts";
import { type BandNight, bandNight } from "#tests/support/band-night.ts";
import { sessionOn } from "#tests/support/open-access.ts";
import { BOARD, openPhone, type Phone } from "#tests/support/phone.ts";
import { boardOf, contentOf } from "#tests/support/trace.ts";

const DAY = 86_400_000;
const OWN_CHANGES = 500;
const CARDS = 40;

interface Band {
  readonly night: BandNight;
  readonly away: Phone;
  readonly others: readonly Phone[];
  readonly song: string;
  readonly cards: readonly string[];
  readonly people: readonly string[];
}

const gather = async (night: BandNight): Promise<Band> => {
  const away = await night.open("away");
  const others = [await night.open("left"), await night.open("right")];
  const [desk] = others as [Phone, Phone];
  await night.network.drain();
  const song = night.run(desk, "addSong", { title: "Marzipan Diesel", length: 200 }).id;
  const people = ["Lucía Borrasco", "Tomasz Wrzosnowicz", "Priya Ostrander"].map(
    (name) => night.run(desk, "addPerson", { name }).id,
  );
  const cards = Array.from(
    { length: CARDS },
    (_, i) => night.run(desk, "addDetail", { song, text: `Choke on 4-and, place ${i}` }).id,
  );
  await night.network.drain();
  return { night, away, others, song, cards, people };
};

/** One change that nobody else makes, in turn of four kinds; answers the keys it wrote. */
const ownChange = ({ night, song, cards, people }: Band, phone: Phone, n: number, who: number) => {
  const day = `r:2026-03-${String(1 + (n % 28)).padStart(2, "0")}`;
  const kinds: readonly (readonly [name: string, args: unknown])[] = [
    ["markDetail", { card: cards[n % CARDS], member: people[who], level: 1 + (n % 3) }],
    ["askQuestion", { song, text: `Question ${n} of ${phone.name}` }],
    ["markDetail", { card: cards[(n * 7) % CARDS], member: people[who], level: n % 4 }],
    n % 8 === 3
      ? ["logTake", { song, occasion: `${day}/${phone.name}`.replace("/", "-"), kind: "run", at: Date.now(), seats: [], feel: "clean" }]
      : ["addDetail", { song, text: `Detail ${n} of ${phone.name}` }],
  ]; // biome-ignore format: one kind a line
  const [name, args] = kinds[n % kinds.length] as (typeof kinds)[number];
  return night.run(phone, name, args);
};

/** Lets everybody who has signal catch up; `settle` would bring the traveller back as well. */
const catchUp = async ({ network }: BandNight): Promise<void> => {
  await network.drain();
  for (let round = 0; round < 3; round++) {
    network.elapse(12_000);
    await network.drain();
  }
};

/** A month of the others: changes of their own, the server restarted, killed and folding in between. */
const aMonthOfTheOthers = async (band: Band, changes: number): Promise<void> => {
  const { network } = band.night;
  const rounds = 30;
  for (let round = 0; round < rounds; round++) {
    vi.setSystemTime(Date.now() + DAY);
    await catchUp(band.night);
    for (let n = 0; n < changes / rounds; n++) {
      const at = (round * changes) / rounds + n;
      ownChange(band, band.others[at % 2] as Phone, at, 1 + (at % 2));
    }
    await network.drain();
    if (round % 7 === 3) await network.restartServer();
    if (round % 11 === 5) network.killServer();
  }
  await catchUp(band.night);
};

const stored = async ({ network }: BandNight): Promise<Y.Doc> => {
  const ydoc = new Y.Doc();
  // Gives it all the maps that a phone's document has.
  createBoardDocument(ydoc);
  for (const { bytes } of await network.storage.load(BOARD)) Y.applyUpdate(ydoc, bytes);
  return ydoc;
};

/** Five hundred changes without signal: what they wrote last, by key, as nobody else writes these keys. */
const fiveHundred = (band: Band, phone: Phone) => {
  const last = new Map<string, unknown>();
  const ids: string[] = [];
  for (let n = 0; n < OWN_CHANGES; n++) {
    const { id, written } = ownChange(band, phone, n, 0);
    ids.push(id);
    for (const { map, key, after } of written) last.set(`${map} ${key}`, after);
  }
  return { last, ids };
};

const expectKept = (ydoc: Y.Doc, last: ReadonlyMap<string, unknown>): void => {
  for (const [name, value] of last) {
    const [map = "", key = ""] = name.split(" ");
    expect(ydoc.getMap(map).get(key), name).toEqual(value);
  }
};

describe("[SYNC-1] [SYNC-3] a phone that was away for a month", () => {
  test("[DOC-7] brings its 500 changes among 3,000 of the others, past restarts, foldings and a migration", async () => {
    const band = await gather(bandNight());
    const { night, away, others, song, cards, people } = band;
    const [left] = others as [Phone, Phone];
    // An older release kept the band's constants in one record; the server brings them up to date meanwhile.
    left.session().document.transact("older release", (set) => set("band", "settings", { "claim.3": 0.8 }));
    await night.network.settle();
    expect(migrationsCurrent(createBoardDocument(await stored(night)))).toBe(false);
    night.network.cut("away");
    const { last, ids } = fiveHundred(band, away);
    // And what somebody else changes as well.
    night.run(away, "reviseSong", { song, fields: { notes: "away: bring the shaker" } });
    night.run(away, "rewordDetail", { card: cards[0], field: "text", text: "Grab the crash on 4-and" });
    night.run(away, "markDetail", { card: cards[1], member: people[1], level: 3 });
    const unsent = away.session().outbox.saveState().unsent;
    expect(unsent).toBeGreaterThan(OWN_CHANGES - 60);

    await aMonthOfTheOthers(band, 3000);
    night.run(left, "reviseSong", { song, fields: { notes: "left: leave the shaker" } });
    night.run(left, "rewordDetail", { card: cards[0], field: "text", text: "Choke on the and of 4" });
    night.run(left, "markDetail", { card: cards[1], member: people[1], level: 1 });
    await catchUp(night);
    const meanwhile = await stored(night);
    expect((await night.network.storage.load(BOARD))[0]?.snapshot).not.toBeNull();
    expect(migrationsCurrent(createBoardDocument(meanwhile))).toBe(true);

    await away.restart();
    expect(away.session().outbox.saveState().unsent).toBe(unsent);
    expect(
      [...last.keys()].some((name) => meanwhile.getMap(name.split(" ")[0]).has(name.split(" ")[1] ?? "")),
    ).toBe(false);
    await night.network.settle();
    const disk = await stored(night);
    for (const phone of [away, ...others]) {
      expect(contentOf(phone.session().ydoc)).toEqual(contentOf(disk));
      expect(boardOf(phone.session().ydoc)).toEqual(boardOf(disk));
      expect(phone.session().outbox.saveState()).toMatchObject({
        connection: "connected",
        unsent: 0,
        refused: [],
      });
    }
    expectKept(disk, last);
    for (const id of ids) expect(away.session().outbox.stateOf(id)).not.toBe("on this phone");
    expect(away.disk.entries.size).toBe(0);

    const board = away.store().board();
    const file = board.songs.get(song);
    expect(["away: bring the shaker", "left: leave the shaker"]).toContain(file?.song.notes);
    const wording = file?.cards.find(({ id }) => id === cards[0]);
    expect(isDisputed(wording?.versions.text ?? [])).toBe(true);
    expect(wording?.versions.text.map(({ text }) => text).sort()).toEqual([
      "Choke on the and of 4",
      "Grab the crash on 4-and",
    ]);
    // Of two marks the later one counts, and the other phone made it.
    expect(file?.statuses.get(cards[1] ?? "")?.get(people[1] ?? "")?.level).toBe(1);
    expect(board.issues).toEqual([]);
  }, 180_000);

  test("whose way in has ended meanwhile keeps all it has, says so, and sends it once it came in by a new link", async () => {
    let ended = false;
    const night = bandNight({
      access: {
        admit: async (token, board) => {
          if (board === null || (ended && token === "first way"))
            return { ok: false, refusal: "way-in-ended" };
          return { ok: true, session: sessionOn(board, { role: "leader" }) };
        },
      },
    });
    const band = await gather(night);
    const away = await night.open("traveller", { token: "first way" });
    await night.network.drain();
    night.network.cut("traveller");
    const { last, ids } = fiveHundred(band, away);
    ended = true;
    await aMonthOfTheOthers(band, 300);
    night.network.heal("traveller");
    await night.network.settle();
    const turnedAway = away.session().outbox.saveState();
    expect(turnedAway).toMatchObject({ connection: "refused", refused: [] });
    expect(turnedAway.reason).not.toBe("");
    await away.restart();
    await night.network.settle();
    expect(away.session().outbox.saveState().unsent).toBe(turnedAway.unsent);
    expect(away.session().outbox.saveState().connection).toBe("refused");

    await away.close();
    const again = await openPhone({
      network: night.network,
      name: "traveller",
      token: "second way",
      disk: away.disk,
    });
    await night.network.settle();
    expect(again.session().outbox.saveState()).toMatchObject({
      connection: "connected",
      reason: "",
      unsent: 0,
      refused: [],
    });
    const disk = await stored(night);
    expectKept(disk, last);
    for (const id of ids) expect(again.session().outbox.stateOf(id)).not.toBe("on this phone");
    for (const phone of [again, ...band.others])
      expect(contentOf(phone.session().ydoc)).toEqual(contentOf(disk));
    await again.close();
  }, 180_000);
});
