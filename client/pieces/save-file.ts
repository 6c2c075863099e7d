/** Kinds of files that are handed over, as registered with IANA. */
type FileType =
  | "text/csv"
  | "text/calendar"
  | "application/json"
  | "application/vnd.recordare.musicxml+xml"
  | "audio/midi";

/** Hands a text, or bytes, over as a file: the browser asks where, or puts it among the downloads. */
export const saveFile = (name: string, content: string | Uint8Array<ArrayBuffer>, type: FileType): void => {
  const said = typeof content === "string" ? `${type};charset=utf-8` : type;
  const address = URL.createObjectURL(new Blob([content], { type: said }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // The download has its own hold on the bytes once it has begun.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
};

/** Longest name in characters: with four bytes each it stays below the 255 bytes that most systems take. */
const NAME_MAX = 40;

/**
 * What a file is of (a band, a song) as part of its name: letters and digits of any script, the rest as hyphens, cut where
 * it gets too long for a system.
 */
export const fileName = (of: string, what: string, day: string, ending: string): string => {
  const plain = of.normalize("NFC").replace(/[^\p{L}\p{M}\p{N}]+/gu, "-");
  const short = [...plain.replace(/^[-\p{M}]+/u, "").toLowerCase()].slice(0, NAME_MAX).join("");
  const parts = [short.replace(/-$/, ""), what, day];
  return `${parts.filter((part) => part !== "").join("-")}.${ending}`;
};
