/**
 * Recovery codes against the published encoding: Douglas Crockford, "Base 32", 4 March 2019,
 * https://www.crockford.com/base32.html. The tables below are the page's, symbol by symbol.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { encodeRecoveryCode, groupRecoveryCode, parseRecoveryCode } from "#shared/protocol/recovery-code.ts";

/** Column "Encode Symbol" of the page's table, for the values 0 to 31. */
const ENCODE_SYMBOLS = "0 1 2 3 4 5 6 7 8 9 A B C D E F G H J K M N P Q R S T V W X Y Z".split(" ");
/** Column "Decode Symbol", where it differs from the encode symbol and its lower case. */
const DECODE_SYMBOLS = { "0": "Oo", "1": "IiLl" } as const;

/** A second way to the number: by what each symbol is worth. */
const numberOf = (symbols: string): bigint =>
  [...symbols].reduce((sum, symbol) => sum * 32n + BigInt(ENCODE_SYMBOLS.indexOf(symbol)), 0n);
const bytesOf = (number: bigint): Uint8Array =>
  Uint8Array.from({ length: 16 }, (_, i) => Number((number >> BigInt(8 * (15 - i))) & 255n));

const codeBytes = fc.uint8Array({ minLength: 16, maxLength: 16 });

describe("recovery codes", () => {
  test("use each symbol of the table for its value, most significant first, zero-extended in front", () => {
    for (const [value, symbol] of ENCODE_SYMBOLS.entries())
      expect(encodeRecoveryCode(bytesOf(BigInt(value)))).toBe(symbol.padStart(26, "0"));
    expect(encodeRecoveryCode(bytesOf(2n ** 128n - 1n))).toBe("7".padEnd(26, "Z"));
    expect(encodeRecoveryCode(bytesOf(32n))).toBe("10".padStart(26, "0"));
  });

  test("say the number of their 128 bits, whatever it is", () => {
    fc.assert(
      fc.property(codeBytes, (bytes) => {
        expect(bytesOf(numberOf(encodeRecoveryCode(bytes)))).toEqual(bytes);
      }),
      { numRuns: 1000 },
    );
  });

  test("are read in either case, with every look-alike, with hyphens and spaces anywhere", () => {
    const gaps = fc.array(fc.constantFrom("", "", "", "-", " ", "\u2010", "\u2013", "\n", "\u00a0"), {
      minLength: 27,
      maxLength: 27,
    });
    const spelling = fc.array(fc.nat(), { minLength: 26, maxLength: 26 });
    fc.assert(
      fc.property(codeBytes, gaps, spelling, (bytes, between, choices) => {
        const code = encodeRecoveryCode(bytes);
        const typed = [...code].map((symbol, i) => {
          const ways = [symbol, symbol.toLowerCase(), ...(DECODE_SYMBOLS[symbol as "0" | "1"] ?? "")];
          return `${between[i]}${ways[(choices[i] ?? 0) % ways.length]}`;
        });
        expect(parseRecoveryCode(typed.join("") + between[26])).toBe(code);
      }),
      { numRuns: 1000 },
    );
  });

  test("are refused with a symbol too few or too many, with a letter the alphabet leaves out, or above 128 bits", () => {
    const code = "7ZK3Q0VX8MD1TGHR5NCB2W9EPY";
    expect(parseRecoveryCode(code)).toBe(code);
    for (const wrong of [
      code.slice(1),
      `${code}0`,
      code.replace("Z", "U"),
      code.replace("Z", "*"),
      `8${code.slice(1)}`,
      "",
      "ß".repeat(13),
    ])
      expect(parseRecoveryCode(wrong)).toBeNull();
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 60 }), (text) => {
        const read = parseRecoveryCode(text);
        expect(read === null || encodeRecoveryCode(bytesOf(numberOf(read))) === read).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });

  test("are shown in groups of five, and the last takes what is left over", () => {
    expect(groupRecoveryCode("7ZK3Q0VX8MD1TGHR5NCB2W9EPY")).toBe("7ZK3Q-0VX8M-D1TGH-R5NCB-2W9EPY");
    fc.assert(
      fc.property(codeBytes, (bytes) => {
        const code = encodeRecoveryCode(bytes);
        expect(parseRecoveryCode(groupRecoveryCode(code))).toBe(code);
      }),
      { numRuns: 1000 },
    );
  });

  test("cannot be made of anything but 128 bits", () => {
    expect(() => encodeRecoveryCode(new Uint8Array(15))).toThrow(RangeError);
  });
});
