import { expect, test } from "vitest";
import { standAction } from "#client/features/stand/stand-keys.ts";

const press = (key: string, more: { readonly repeat?: boolean; readonly modified?: boolean } = {}) => ({
  key,
  repeat: false,
  modified: false,
  ...more,
});

test("what pedals send goes on and back, and so do space and arrows", () => {
  for (const key of ["PageDown", "ArrowRight", "ArrowDown", " ", "Enter"])
    expect(standAction(press(key), false, true)).toBe("next");
  for (const key of ["PageUp", "ArrowLeft", "ArrowUp"])
    expect(standAction(press(key), false, true)).toBe("back");
  expect(["f", "P", "t", "x"].map((key) => standAction(press(key), false, true))).toEqual([
    "flag",
    "pause",
    "take over",
    null,
  ]);
});

test("a held key skips nothing; a control reached by keys is pressed by them; letters can be off", () => {
  expect(standAction(press("PageDown", { repeat: true }), false, true)).toBe("held");
  expect(standAction(press("x", { repeat: true }), false, true)).toBeNull();
  expect(standAction(press(" "), true, true)).toBeNull();
  expect(standAction(press("PageDown"), true, true)).toBe("next");
  expect(standAction(press("f"), false, false)).toBeNull();
  expect(standAction(press("PageDown"), false, false)).toBe("next");
  expect(standAction(press("p", { modified: true }), false, true)).toBeNull();
});
