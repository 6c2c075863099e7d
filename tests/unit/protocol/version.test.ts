import { expect, test } from "vitest";
import { offeredSubprotocols, SUBPROTOCOL, tokenAmong } from "#shared/protocol/version.ts";

test("the token travels among the offered subprotocols and is found again", () => {
  expect(tokenAmong(offeredSubprotocols("abc-_123"))).toBe("abc-_123");
  expect(tokenAmong([SUBPROTOCOL])).toBeNull();
});

test("what is offered may stand in the header", () => {
  // RFC 6455, section 4.1, item 10: subprotocols are tokens of RFC 2616, section 2.2: no separators, no controls.
  for (const name of offeredSubprotocols("A-Za-z0-9_-"))
    expect(name).toMatch(/^[!#$%&'*+\-.^_`|~0-9A-Za-z]+$/);
});
