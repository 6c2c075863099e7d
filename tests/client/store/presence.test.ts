import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { createIdentity } from "#client/store/identity.ts";
import type { Place, PresenceChannel, Present } from "#client/store/presence.ts";
import { createPresenceStore, readPresent } from "#client/store/presence-store.ts";
import type { Role } from "#shared/protocol/api.ts";
import { laws } from "#tests/support/fuzz.ts";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const CALM = 1000;

/** A presence store over a channel that the test fills. */
const start = (role: Role = "member", member: string | null = "lucia") => {
  const shown: (Present | null)[] = [];
  const heard = new Set<() => void>();
  let others: readonly unknown[] = [];
  const channel: PresenceChannel = {
    announce: (present) => void shown.push(present),
    others: () => others,
    subscribe: (listener) => {
      heard.add(listener);
      return () => heard.delete(listener);
    },
  };
  const identity = createIdentity({ member, writer: "own-device", role });
  const store = createPresenceStore(channel, identity);
  const calm = (): void => void vi.advanceTimersByTime(CALM);
  calm();
  const hear = (...states: readonly unknown[]): void => {
    others = states;
    for (const listener of heard) listener();
    calm();
  };
  return { store, identity, shown, hear, calm, heard };
};

const at = (member: string | null, device: string, place: Partial<Place> = {}): Present => ({
  member,
  device,
  screen: "board",
  song: null,
  chair: null,
  ...place,
});

describe("one's own place", () => {
  test("is the last one taken, and the one before it once that is left", () => {
    const { store, shown, calm } = start();
    expect(shown).toEqual([at("lucia", "own-device", { screen: "elsewhere" })]);
    const leaveBoard = store.stand(at("lucia", "own-device"));
    calm();
    const leavePart = store.stand({ screen: "part", song: "s", chair: "c" });
    calm();
    expect(shown.at(-1)).toEqual(at("lucia", "own-device", { screen: "part", song: "s", chair: "c" }));
    leavePart();
    calm();
    expect(shown.at(-1)).toEqual(at("lucia", "own-device"));
    leaveBoard();
    calm();
    expect(shown.at(-1)?.screen).toBe("elsewhere");
  });

  test("is told once for all moves of a moment, and not again while nothing changes", () => {
    const { store, shown, calm } = start();
    let leave = (): void => {};
    for (let n = 0; n < 20; n++) {
      leave();
      leave = store.stand({ screen: "board", song: `song-${n}`, chair: "c" });
    }
    calm();
    expect(shown.slice(1)).toEqual([at("lucia", "own-device", { song: "song-19", chair: "c" })]);
    leave();
    store.stand({ screen: "board", song: "song-19", chair: "c" });
    calm();
    expect(shown).toHaveLength(2);
  });

  test("is nowhere while nobody looks at the page, and is told anew when somebody picks a name", () => {
    const { store, identity, shown, calm } = start("member", null);
    store.setAway(true);
    calm();
    expect(shown.at(-1)).toBeNull();
    store.setAway(false);
    identity.become("priya");
    calm();
    expect(shown.at(-1)?.member).toBe("priya");
  });

  test.each<Role>(["guest", "dep"])("of a %s is never shown, though they see the others", (role) => {
    const { store, shown, hear, calm } = start(role, null);
    store.stand({ screen: "board", song: null, chair: null });
    calm();
    expect(shown).toEqual([]);
    hear(at("tomasz", "b"));
    expect(store.everybody()).toHaveLength(1);
  });
});

describe("the others", () => {
  test("stand in their cells, each person once however many tabs and devices they have", () => {
    const { store, hear } = start();
    const part = { song: "s", chair: "c" };
    hear(
      at("tomasz", "a", part),
      at("tomasz", "a"),
      at("tomasz", "b", part),
      at(null, "x", part),
      at(null, "x"),
    );
    expect(store.at("s", "c").map(({ member }) => member)).toEqual(["tomasz", null]);
    expect(store.everybody().map(({ song }) => song)).toEqual(["s", "s"]);
    expect(store.at("s", "other")).toEqual([]);
  });

  test("are others: neither this device's tabs nor one's own phone", () => {
    const { store, hear, identity, calm } = start();
    hear(at("lucia", "own-device"), at("lucia", "phone"), at(null, "own-device"), at("priya", "own-device"));
    expect(store.everybody()).toEqual([]);
    hear(at("lucia", "phone"));
    identity.become("priya");
    calm();
    expect(store.everybody()).toHaveLength(1);
  });

  test("are told to the cells they leave and enter, and to nobody else", () => {
    const { store, hear } = start();
    const told: string[] = [];
    for (const cell of ["s/a", "s/b", "s/c"] as const)
      store.subscribe(`cell:${cell}`, () => void told.push(cell));
    hear(at("tomasz", "t", { song: "s", chair: "a" }), at("priya", "p", { song: "s", chair: "c" }));
    expect(told.splice(0).sort()).toEqual(["s/a", "s/c"]);
    const before = store.at("s", "c");
    hear(at("tomasz", "t", { song: "s", chair: "b" }), at("priya", "p", { song: "s", chair: "c" }));
    expect(told.splice(0).sort()).toEqual(["s/a", "s/b"]);
    expect(store.at("s", "c"), "keeps its reference").toBe(before);
    hear(at("priya", "p", { song: "s", chair: "c" }), at("tomasz", "t", { song: "s", chair: "b" }));
    expect(told).toEqual([]);
  });

  test("are heard of no more after closing", () => {
    const { store, hear, heard } = start();
    store.close();
    hear(at("tomasz", "t"));
    expect([store.everybody(), heard.size]).toEqual([[], 0]);
  });

  test("may show anything: what makes no sense is not there, and nothing throws", () => {
    const { store, hear } = start();
    const wild = fc.oneof(
      fc.anything(),
      fc.record(
        {
          member: fc.anything(),
          device: fc.anything(),
          song: fc.anything(),
          chair: fc.anything(),
          screen: fc.anything(),
        },
        { requiredKeys: [] },
      ),
    );
    fc.assert(
      fc.property(fc.array(wild, { maxLength: 5 }), (states) => {
        hear(...states, at("tomasz", "t"));
        expect(store.everybody()).toContainEqual(at("tomasz", "t"));
        for (const state of states) {
          const present = readPresent(state);
          if (present === null) continue;
          expect(typeof present.device).toBe("string");
          expect(Object.keys(present).sort()).toEqual(["chair", "device", "member", "screen", "song"]);
        }
      }),
      laws(),
    );
  });

  test.each([
    [{ member: "m", device: "d", song: null, chair: null, screen: "cellar" }],
    [{ member: 7, device: "d", song: null, chair: null, screen: "board" }],
    [{ member: "a/b", device: "d", song: null, chair: null, screen: "board" }],
    [{ member: "m", song: null, chair: null, screen: "board" }],
    [{ member: "m", device: "d".repeat(1000), song: null, chair: null, screen: "board" }],
  ])("are left out when they show %j", (state) => expect(readPresent(state)).toBeNull());
});
