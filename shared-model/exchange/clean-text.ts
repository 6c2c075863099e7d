/** Characters that are no text: C0 and C1 controls (ISO/IEC 6429) and what decoders put in place of broken bytes. */
const STRANGE = /[\p{Cc}\ufffd]/gu;
const BULLET = /^\s*(?:[-*–—+]\s+|[•·▪◦●‣⁃]\s*)/u;
const NUMBER = /^\s*\(?\d{1,3}[.)]\s+(?=\S)/;

/** A cell on one line: white space folded, strange characters taken out and reported. */
export const cleanLine = (raw: string): { readonly text: string; readonly strange: boolean } => {
  const folded = raw.replace(/\s+/g, " ");
  const bare = folded.replace(STRANGE, "");
  return { text: bare.trim(), strange: bare !== folded };
};

/** A cell that keeps its lines: ends of lines folded to one kind, strange characters taken out and reported. */
export const cleanLines = (raw: string): { readonly text: string; readonly strange: boolean } => {
  const folded = raw.replace(/\r\n?/g, "\n");
  const bare = folded.replace(/(?![\n\t])[\p{Cc}\ufffd]/gu, "");
  return { text: bare.trim(), strange: bare !== folded };
};

/** True when a text begins with a list number such as `12)` or `3.`. */
export const isNumbered = (text: string): boolean => NUMBER.test(text.replace(BULLET, ""));

/** What stands before the items of a list and is no part of them. */
export type Markers = "none" | "bullets" | "bullets and numbers";

export const withoutMarker = (text: string, markers: Markers): string => {
  const bare = markers === "none" ? text : text.replace(BULLET, "");
  return markers === "bullets and numbers" ? bare.replace(NUMBER, "") : bare;
};

/** True for text that was saved in another encoding: every second character of UTF-16 read as bytes is a NUL. */
export const isWrongEncoding = (text: string): boolean =>
  (text.match(/\0/g)?.length ?? 0) > Math.max(2, text.length / 5);

/** Without the byte order mark that some programs put first. */
export const withoutMark = (text: string): string => text.replace(/^\ufeff/, "");
