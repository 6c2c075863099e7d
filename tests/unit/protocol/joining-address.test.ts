import fc from "fast-check";
import { expect, test } from "vitest";
import { isId } from "#shared/board/ids.ts";
import { joiningAddress, joiningIn, parseJoining } from "#shared/protocol/joining-address.ts";

test("the secret stands in the fragment, which is not sent to a server", () => {
  const url = new URL(joiningAddress("https://board.example.org", { board: "b1", secret: "s3cret" }));
  // RFC 3986, section 3.5: the fragment is not part of what is requested.
  expect(`${url.pathname}${url.search}`).toBe("/");
  expect(url.hash).toBe("#/join/b1/s3cret");
});

test("what was built is read back, for any board and secret", () => {
  fc.assert(
    fc.property(
      fc.string({ unit: "grapheme", minLength: 1, maxLength: 40 }),
      fc.base64String({ minLength: 4 }),
      (board, secret) => {
        fc.pre(isId(board) && !board.includes("\ud800"));
        const { hash } = new URL(joiningAddress("http://localhost:4400", { board, secret }));
        expect(parseJoining(hash)).toEqual({ board, secret });
      },
    ),
    { numRuns: 1000 },
  );
});

test("other fragments are no joining address", () => {
  for (const fragment of [
    "",
    "#/",
    "#/join/b1",
    "#/join/b1/s/x",
    "#/songs/b1/s",
    "#/join/%E0%A4%A/s",
    "#/join/a%2Fb/s",
  ])
    expect(parseJoining(fragment)).toBeNull();
});

test("an address is found in the message around it, without the full stop after it", () => {
  const address = joiningAddress("https://board.example.org", { board: "b1", secret: "s3c-r_et" });
  for (const text of [
    address,
    `Hello!\n${address}\nSee you`,
    `It is here: ${address}.`,
    `(${address})`,
    `<${address}>`,
  ])
    expect(joiningIn(text), text).toEqual({ board: "b1", secret: "s3c-r_et" });
  for (const text of ["", "https://board.example.org/", "https://board.example.org/#/join/b1"])
    expect(joiningIn(text), text).toBeNull();
});
