/**
 * Recovery codes as people copy them from paper: 128 bits in base 32 by Douglas Crockford
 * (https://www.crockford.com/base32.html), in groups of five with hyphens. The alphabet leaves out I, L, O and U;
 * reading takes lower case, I and L for 1 and O for 0, and passes over hyphens and spaces.
 */

const ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const LOOK_ALIKES: Readonly<Record<string, string>> = { I: "1", L: "1", O: "0" };
const CODE_BYTES = 16;
/** 128 bits are a number of 26 symbols, zero-extended by two bits in front. */
const SYMBOLS = 26;
const GROUP = 5;

/** The canonical form of 16 random bytes: 26 upper-case symbols, most significant first. */
export const encodeRecoveryCode = (bytes: Uint8Array): string => {
  if (bytes.length !== CODE_BYTES) throw new RangeError(`A recovery code has ${CODE_BYTES} bytes`);
  let rest = bytes.reduce((number, byte) => (number << 8n) | BigInt(byte), 0n);
  let symbols = "";
  for (let i = 0; i < SYMBOLS; i++) {
    symbols = ALPHABET[Number(rest & 31n)] + symbols;
    rest >>= 5n;
  }
  return symbols;
};

/** The canonical form of what somebody typed; null when it is no code of 128 bits. */
export const parseRecoveryCode = (typed: string): string | null => {
  let symbols = "";
  for (const character of typed.toUpperCase()) {
    if (/[\s\p{Dash}]/u.test(character)) continue;
    const symbol = LOOK_ALIKES[character] ?? character;
    if (symbol.length !== 1 || !ALPHABET.includes(symbol) || symbols.length === SYMBOLS) return null;
    symbols += symbol;
  }
  // The first symbol holds three bits: 26 symbols could say 130.
  return symbols.length === SYMBOLS && ALPHABET.indexOf(symbols[0] ?? "") < 8 ? symbols : null;
};

/** In groups, as it is shown: `1A2B3-4C5D6-…`; the last group takes the one symbol that is left over. */
export const groupRecoveryCode = (canonical: string): string => {
  const cut = canonical.length - (canonical.length % GROUP);
  const groups = canonical.slice(0, cut).match(/.{5}/g) ?? [];
  return groups.join("-") + canonical.slice(cut);
};
