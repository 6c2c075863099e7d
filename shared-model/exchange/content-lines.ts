/** Lines of an iCalendar file. Source: RFC 5545, §3.1 (content lines) and §3.3.11 (text). */

/** Longest line in octets of UTF-8, without its CRLF (§3.1). */
const LINE_OCTETS = 75;

/** Characters a text value cannot hold: controls but the tab (§3.1), and halves of a pair, which UTF-8 cannot say. */
const UNSAYABLE = /(?!\t)\p{Cc}|\p{Cs}/gu;

/** A text as a value: line ends as `\n`, backslash, semicolon and comma behind a backslash. A colon stays as it is. */
export const textValue = (text: string): string =>
  text
    .replace(/[\\;,]/g, "\\$&")
    .replace(/\r\n|\r|\n/g, "\\n")
    .replace(UNSAYABLE, "");

/** `NAME:value` with its CRLF, folded so that no line is longer than 75 octets and no character is cut in two. */
export const contentLine = (name: string, value: string): string => {
  let folded = "";
  let octets = 0;
  for (const character of `${name}:${value}`) {
    const wide = octetsOf(character);
    if (octets + wide > LINE_OCTETS) {
      folded += "\r\n ";
      octets = 1;
    }
    folded += character;
    octets += wide;
  }
  return `${folded}\r\n`;
};

/** Octets of one code point in UTF-8 (RFC 3629, §3). */
const octetsOf = (character: string): number => {
  const point = character.codePointAt(0) ?? 0;
  if (point < 0x80) return 1;
  if (point < 0x800) return 2;
  return point < 0x10000 ? 3 : 4;
};
