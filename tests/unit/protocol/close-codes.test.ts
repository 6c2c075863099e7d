import { expect, test } from "vitest";
import { CLOSE_CODES, closeReason } from "#shared/protocol/close-codes.ts";
import { isRetriable } from "#shared/protocol/retriable.ts";

const codes = Object.keys(CLOSE_CODES).map(Number);

test("codes are registered ones or from the range for private use", () => {
  // RFC 6455, section 7.4.2: 4000-4999 are for private use; 1001-1013 as in the IANA WebSocket close code registry.
  for (const code of codes)
    expect([1001, 1009, 1011, 1012, 1013].includes(code) || (code >= 4000 && code <= 4999)).toBe(true);
});

test("a retry is useless exactly for 4400 to 4499 and for 1009", () => {
  // y-websocket 3.1, defaultShouldReconnect: 4400-4499 are permanent, everything else is transient.
  for (const code of codes) expect(isRetriable(code)).toBe(code !== 1009 && (code < 4400 || code > 4499));
});

test("codes nobody declared count as a broken network, unless they are in the permanent range", () => {
  expect(isRetriable(1006)).toBe(true);
  expect(isRetriable(4499)).toBe(false);
  expect(closeReason(1006)).toBeNull();
  expect(closeReason(Number.NaN)).toBeNull();
});

test("every reason has a name fit for a close frame and a sentence for people", () => {
  for (const code of codes) {
    const reason = closeReason(code);
    // RFC 6455, section 5.5: a control frame carries at most 125 bytes, two of them the code.
    expect(reason?.name).toMatch(/^[a-z-]{3,123}$/);
    expect(reason?.sentence).toMatch(/^[A-Z].*\.$/);
  }
});

test("no two codes share a name", () => {
  expect(new Set(Object.values(CLOSE_CODES).map(({ name }) => name)).size).toBe(codes.length);
});
