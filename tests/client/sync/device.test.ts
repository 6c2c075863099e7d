import { describe, expect, test, vi } from "vitest";
import { type KnownBoard, openDevice } from "#client/sync/device.ts";
import { randomId } from "#client/sync/random-id.ts";
import { isId } from "#shared/board/ids.ts";

/** A storage like the browser's, over a map that outlives the "page". */
const storageOver = (kept: Map<string, string>): Storage => ({
  get length() {
    return kept.size;
  },
  clear: () => kept.clear(),
  getItem: (key) => kept.get(key) ?? null,
  key: (n) => [...kept.keys()][n] ?? null,
  removeItem: (key) => void kept.delete(key),
  setItem: (key, text) => void kept.set(key, text),
});

const known = (board: string, more: Partial<KnownBoard> = {}): KnownBoard => ({
  board,
  document: board,
  token: `token-${board}`,
  role: "member",
  memberId: null,
  confirmed: false,
  expiresAt: null,
  name: "Six Spare Fuses",
  lastOpened: 1,
  ...more,
});

describe("a device", () => {
  test("keeps its own id and its boards over a reload, last opened first", () => {
    const kept = new Map<string, string>();
    const first = openDevice(storageOver(kept));
    first.remember(known("a", { lastOpened: 1 }));
    first.remember(known("b", { lastOpened: 3 }));
    first.remember(known("c", { lastOpened: 2 }));
    first.update("a", { memberId: "lucia" });
    first.update("unknown", { memberId: "lucia" });
    const second = openDevice(storageOver(kept));
    expect(second.writer).toBe(first.writer);
    expect(second.boards().map(({ board }) => board)).toEqual(["b", "c", "a"]);
    expect(second.board("a")).toEqual(known("a", { memberId: "lucia" }));
    second.forget("b");
    expect(second.board("b")).toBeNull();
    // The other tab sees it at once.
    expect(first.boards().map(({ board }) => board)).toEqual(["c", "a"]);
  });

  test("replaces what it knew of a board instead of listing it twice", () => {
    const device = openDevice(storageOver(new Map()));
    device.remember(known("a"));
    device.remember(known("a", { role: "leader", token: "new" }));
    expect(device.boards()).toEqual([known("a", { role: "leader", token: "new" })]);
  });

  test.each([
    ["storage is missing", null],
    [
      "storage is forbidden",
      {
        ...storageOver(new Map()),
        getItem: () => {
          throw new DOMException("denied", "SecurityError");
        },
        setItem: () => {
          throw new DOMException("denied", "SecurityError");
        },
      },
    ],
    [
      "storage is full",
      {
        ...storageOver(new Map()),
        setItem: () => {
          throw new DOMException("full", "QuotaExceededError");
        },
      },
    ],
  ])("remembers while the page is open when %s", (_, storage) => {
    const device = openDevice(storage);
    device.remember(known("a"));
    expect(device.board("a")).toEqual(known("a"));
    expect(device.remembers).toBe(false);
    expect(isId(device.writer)).toBe(true);
  });

  test.each(["{", "null", '"x"', '[{"board":"a"},7]'])("starts afresh from a broken list: %s", (text) => {
    const device = openDevice(storageOver(new Map([["tightrow.boards", text]])));
    expect(device.boards()).toEqual([]);
    device.remember(known("a"));
    expect(device.boards()).toHaveLength(1);
  });

  test("leaves out a broken entry and keeps the others", () => {
    const text = JSON.stringify([known("a"), { ...known("b"), role: "king" }]);
    expect(openDevice(storageOver(new Map([["tightrow.boards", text]]))).boards()).toEqual([known("a")]);
  });
});

describe("random ids", () => {
  // RFC 4648, section 5: the URL-safe alphabet; 16 bytes make 22 characters without padding.
  test("are 128 bits in base64url, without the generator that plain http lacks", () => {
    const uuid = vi.spyOn(crypto, "randomUUID");
    const ids = new Set(Array.from({ length: 1000 }, randomId));
    expect(ids.size).toBe(1000);
    for (const id of ids) expect(id).toMatch(/^[A-Za-z0-9_-]{22}$/);
    expect(uuid).not.toHaveBeenCalled();
    uuid.mockRestore();
  });
});
