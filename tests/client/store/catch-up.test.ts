/** What a member knows, kept on their device (fake-indexeddb follows the W3C Indexed Database API 3.0). */
import "fake-indexeddb/auto";
import { describe, expect, test, vi } from "vitest";
import * as Y from "yjs";
import { knownShelf } from "#client/sync/known-shelf.ts";
import { deleteLocalBoard } from "#client/sync/local-persistence.ts";
import { markDetail } from "#shared/commands/mark-detail.ts";
import { reviseSong } from "#shared/commands/revise-song.ts";
import { rewordDetail } from "#shared/commands/reword-detail.ts";
import { squash } from "#shared/document/squash.ts";
import { copyOf, demoDocument, NOON, newsOn, openPhone, storeOn } from "#tests/support/catch-up-phone.ts";

/** The machine may be busy. */
const until = (check: () => Promise<void>) => vi.waitFor(check, { timeout: 10_000 });
const ME = "demo-lucia";
const DAY = 86_400_000;
const kept = async (board: string) => {
  const read = await knownShelf(board, ME).read();
  return typeof read === "string" ? read : read.known.size;
};
const untilKept = (board: string) => until(async () => expect(await kept(board)).toBeGreaterThan(0));
/** A card of the member, and a song they play. */
const mine = async (board: string) => {
  const phone = await openPhone(board, demoDocument(), ME);
  for (const file of phone.store.board().songs.values())
    for (const card of file.cards)
      if (card.chairs.length === 1 && card.chairs[0] === "demo-chair-dr")
        return { song: file.song.id, card: card.id };
  throw new Error("the drums have no detail of their own");
};

describe("what a device keeps of what a member knows", () => {
  test("is the board as it was on the first visit: nothing to report", async () => {
    const phone = await openPhone("first", demoDocument(), ME);
    expect(newsOn(phone).items).toEqual([]);
    expect(phone.catchUp.state()).toMatchObject({ first: true, broken: false, lasting: true, since: NOON });
  });

  test("survives a reload, a closed season's new document and a restored copy", async () => {
    const { card } = await mine("pick");
    const ydoc = demoDocument();
    await openPhone("seasons", ydoc, ME);
    await untilKept("seasons");
    storeOn(ydoc, "demo-tomasz", NOON + DAY).run(
      rewordDetail,
      { card, field: "text", text: "lean on two" },
      "Reworded",
    );
    const again = await openPhone("seasons", ydoc, ME, NOON + 2 * DAY);
    expect(newsOn(again).items.map(({ key }) => key)).toEqual([`detail:${card}`]);
    const season = new Y.Doc();
    Y.applyUpdate(season, squash(ydoc, 7));
    expect(newsOn(await openPhone("seasons", season, ME, NOON + 2 * DAY))).toEqual(newsOn(again));
    expect(newsOn(await openPhone("seasons", copyOf(ydoc), ME, NOON + 2 * DAY))).toEqual(newsOn(again));
  });

  test("moves on by what is understood, item by item, with an undo", async () => {
    const { song, card } = await mine("pick");
    const ydoc = demoDocument();
    await openPhone("marks", ydoc, ME);
    await untilKept("marks");
    const leader = storeOn(ydoc, "demo-tomasz", NOON + DAY);
    leader.run(rewordDetail, { card, field: "text", text: "lean on two" }, "Reworded");
    leader.run(reviseSong, { song, fields: { capo: 3 } }, "Capo");
    const phone = await openPhone("marks", ydoc, ME, NOON + 2 * DAY);
    const both = newsOn(phone);
    expect(both.items.length).toBe(2);
    const undo = phone.catchUp.understand(both.items[0]?.covers ?? []);
    expect(newsOn(phone).items).toEqual(both.items.slice(1));
    undo();
    expect(newsOn(phone)).toEqual(both);
    phone.catchUp.understand(both.items.flatMap(({ covers }) => covers));
    expect(newsOn(phone).items).toEqual([]);
    expect(phone.catchUp.state()).toMatchObject({ first: false, since: NOON + 2 * DAY });
    await until(async () => {
      const read = await knownShelf("marks", ME).read();
      expect(typeof read === "string" ? read : read.since).toBe(NOON + 2 * DAY);
    });
    leader.run(rewordDetail, { card, field: "text", text: "lean on three" }, "Reworded");
    const later = newsOn(await openPhone("marks", ydoc, ME, NOON + 3 * DAY)).items;
    expect(later.map(({ lines }) => lines)).toEqual([
      [{ what: "Wording", before: "lean on two", after: "lean on three" }],
    ]);
  });

  test("takes in what this device does itself, and its undo, and nothing else", async () => {
    const { song, card } = await mine("pick");
    const ydoc = demoDocument();
    const phone = await openPhone("own", ydoc, ME);
    storeOn(ydoc, "demo-tomasz", NOON + DAY).run(reviseSong, { song, fields: { capo: 3 } }, "Capo");
    phone.store.run(reviseSong, { song, fields: { tuning: "a tone down" } }, "Tuning");
    const marked = phone.store.run(markDetail, { card, member: ME, level: 1 }, "Marked");
    if (marked.ok) phone.store.undo(marked.value);
    await untilKept("own");
    await until(async () => {
      const later = newsOn(await openPhone("own", ydoc, ME, NOON + 2 * DAY)).items;
      expect(later.map(({ key, lines }) => [key, lines.map(({ what }) => what)])).toEqual([
        [`song:${song}`, ["Capo"]],
      ]);
    });
  });

  test("is said to be broken where it cannot be read, and begins anew", async () => {
    const ydoc = demoDocument();
    await openPhone("broken", ydoc, ME);
    await untilKept("broken");
    const db = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open("tightrow.known.broken");
      request.onsuccess = () => resolve(request.result);
    });
    await new Promise((resolve) => {
      const put = db
        .transaction("known", "readwrite")
        .objectStore("known")
        .put({ known: "[[", since: 1, first: false }, ME);
      put.onsuccess = resolve;
    });
    db.close();
    const phone = await openPhone("broken", ydoc, ME, NOON + DAY);
    expect(newsOn(phone).items).toEqual([]);
    expect(phone.catchUp.state()).toMatchObject({ broken: true, first: true, since: NOON + DAY });
    await until(async () => expect((await openPhone("broken", ydoc, ME)).catchUp.state().broken).toBe(false));
  });

  test("goes with the board when the board leaves the device, and is each member's own", async () => {
    const ydoc = demoDocument();
    await openPhone("gone", ydoc, ME);
    await untilKept("gone");
    expect(await knownShelf("gone", "demo-priya").read()).toBe("missing");
    await deleteLocalBoard("gone");
    expect(await kept("gone")).toBe("missing");
  });
});
