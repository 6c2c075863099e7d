import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Focus, keyLines, PEDALS, roomAction } from "#client/features/log-take/room-keys.ts";

const press = (key: string, change: { repeat?: boolean; modified?: boolean } = {}) => ({
  key,
  repeat: false,
  modified: false,
  ...change,
});

const FOCI = ["none", "control", "own keys"] as const satisfies readonly Focus[];
const key = fc.oneof(
  fc.string({ maxLength: 2 }),
  fc.constantFrom(
    "PageDown",
    "PageUp",
    "ArrowDown",
    "ArrowUp",
    "ArrowLeft",
    "Enter",
    " ",
    "s",
    "1",
    "2",
    "3",
  ),
);

describe("keys and pedals in the room", () => {
  test("move among songs and details, flag and log", () => {
    const of = (name: string) => roomAction(press(name), "none", "songs");
    expect(["PageDown", "ArrowRight", "PageUp", "ArrowLeft"].map(of)).toEqual([
      "next song",
      "next song",
      "previous song",
      "previous song",
    ]);
    expect(["ArrowDown", "ArrowUp", "s", "S", "1", "2", "3"].map(of)).toEqual([
      "next",
      "previous",
      "slip",
      "slip",
      "clean",
      "wobble",
      "stopped",
    ]);
  });

  test("a pedal with two buttons can do everything: go on, and press", () => {
    expect(roomAction(press("PageDown"), "control", "details")).toBe("next");
    expect(roomAction(press("PageUp"), "control", "details")).toBe("press");
  });

  test("space and Enter stay the browser's where something has the focus", () => {
    for (const name of [" ", "Enter"]) {
      expect(roomAction(press(name), "control", "songs")).toBeNull();
      expect(roomAction(press(name), "none", "songs")).toBe("press");
    }
  });

  test("nothing is taken from forms, from keys with a modifier, or with the keys off; a held key logs nothing", () => {
    fc.assert(
      fc.property(
        key,
        fc.boolean(),
        fc.constantFrom(...FOCI),
        fc.constantFrom(...PEDALS),
        (name, ...rest) => {
          const [repeat, focus, pedal] = rest;
          expect(roomAction(press(name, { repeat }), "own keys", pedal)).toBeNull();
          expect(roomAction(press(name, { repeat, modified: true }), focus, pedal)).toBeNull();
          expect(roomAction(press(name, { repeat }), focus, "off")).toBeNull();
          expect([null, "next", "previous"]).toContain(
            roomAction(press(name, { repeat: true }), focus, pedal),
          );
        },
      ),
      { numRuns: 2000 },
    );
  });

  test("the help tells of the pedal as it is set", () => {
    expect(keyLines("songs")[0]).toEqual(["Page down, page up", "next song, previous song"]);
    expect(keyLines("details").map(([name]) => name)).toContain("Page up");
  });
});
