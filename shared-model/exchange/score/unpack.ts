/**
 * The text of a score, from a plain file or out of the zip file of MusicXML 4.0 (`.mxl`): META-INF/container.xml names the
 * score. It is unpacked piece by piece and counted, whatever the file says of its own size.
 */
import { DecodeUTF8, Unzip, UnzipInflate, UnzipPassThrough } from "fflate";
import { UNPACKED_MAX, Unreadable } from "./score-facts.ts";

/** Bytes unpacked at a time; deflate makes at most a thousand times as many of them. */
const PIECE = 2048;
/** Bytes between two chances for the page to answer. */
const SLICE = 64 * 1024;
const ENTRIES_MAX = 1000;
const CONTAINER = "META-INF/container.xml";

export const isZip = (bytes: Uint8Array): boolean => bytes[0] === 0x50 && bytes[1] === 0x4b;

const tooLarge = (): Unreadable =>
  new Unreadable(
    `Unpacked, the file is larger than ${UNPACKED_MAX / 1024 / 1024} MB. Export only this song, or save it uncompressed.`,
  );
const damagedZip = (): Unreadable =>
  new Unreadable("The compressed file is damaged. Export it again, or save it as uncompressed MusicXML.");

/** One entry of a zip file, by its name; null where it has none. Throws `Unreadable`. */
function* entryOf(
  bytes: Uint8Array,
  wanted: (name: string) => boolean,
  most: number,
): Generator<void, { readonly name: string; readonly pieces: readonly Uint8Array[] } | null> {
  const pieces: Uint8Array[] = [];
  let found: string | null = null;
  let whole = false;
  let size = 0;
  let entries = 0;
  let damaged = false;
  const unzip = new Unzip((file) => {
    entries += 1;
    if (entries > ENTRIES_MAX) throw damagedZip();
    if (found !== null || !wanted(file.name)) return;
    found = file.name;
    file.ondata = (error, data, final) => {
      // What is thrown here comes back as an error of the data, so it is only noted.
      if (size > most) return;
      damaged ||= error !== null;
      size += data?.length ?? 0;
      if (size <= most && data?.length > 0) pieces.push(data.slice());
      whole ||= final;
    };
    file.start();
  });
  unzip.register(UnzipInflate);
  unzip.register(UnzipPassThrough);
  for (let at = 0; at < bytes.length && !whole; at += PIECE) {
    if (at % SLICE === 0) yield;
    try {
      unzip.push(bytes.subarray(at, at + PIECE), at + PIECE >= bytes.length);
    } catch (error) {
      if (error instanceof Unreadable) throw error;
      throw damagedZip();
    }
    if (size > most) throw tooLarge();
    if (damaged) throw damagedZip();
  }
  if (found === null) return null;
  if (!whole) throw damagedZip();
  return { name: found, pieces };
}

const joined = (pieces: readonly Uint8Array[]): string => {
  let text = "";
  const decode = new DecodeUTF8((part) => {
    text += part;
  });
  for (const piece of pieces) decode.push(piece);
  decode.push(new Uint8Array(0), true);
  return text;
};

/** The pieces of a score's file, as they lie in the zip file or as they are. */
export function* unpackScore(bytes: Uint8Array): Generator<void, readonly Uint8Array[]> {
  if (!isZip(bytes)) {
    const pieces: Uint8Array[] = [];
    for (let at = 0; at < bytes.length; at += SLICE) pieces.push(bytes.subarray(at, at + SLICE));
    return pieces;
  }
  const container = yield* entryOf(bytes, (name) => name === CONTAINER, SLICE);
  const path =
    container === null ? null : /full-path\s*=\s*(["'])(.*?)\1/.exec(joined(container.pieces))?.[2];
  const entry = yield* entryOf(
    bytes,
    (name) => (path ? name === path : /\.(musicxml|xml)$/i.test(name) && !name.startsWith("META-INF/")),
    UNPACKED_MAX,
  );
  if (entry === null)
    throw new Unreadable(
      "There is no score in this compressed file. Choose a .mxl file, or save the song as uncompressed MusicXML.",
    );
  return entry.pieces;
}

/** Two bytes a letter, as some older programs write; `low` = where the lower byte of a pair stands. */
const decodePairs = (low: 0 | 1, emit: (text: string) => void) => {
  let odd: number | null = null;
  return (piece: Uint8Array) => {
    let text = "";
    for (const byte of piece) {
      if (odd === null) odd = byte;
      else {
        text += String.fromCharCode(low === 0 ? odd + 256 * byte : 256 * odd + byte);
        odd = null;
      }
    }
    emit(text);
  };
};

/** Hands the pieces on as text: UTF-8, UTF-16 by its mark, or one byte a letter where the file says so. */
export function* textOf(pieces: readonly Uint8Array[], emit: (text: string) => void): Generator<void, void> {
  const [a = 0, b = 0] = pieces[0] ?? [];
  const head = String.fromCharCode(...(pieces[0]?.subarray(0, 120) ?? []));
  const utf8 = new DecodeUTF8((text) => emit(text));
  const push =
    a === 0xff && b === 0xfe
      ? decodePairs(0, emit)
      : a === 0xfe && b === 0xff
        ? decodePairs(1, emit)
        : /encoding\s*=\s*["']iso-8859-1["']/i.test(head)
          ? (piece: Uint8Array) => {
              let text = "";
              for (const byte of piece) text += String.fromCharCode(byte);
              emit(text);
            }
          : (piece: Uint8Array) => utf8.push(piece);
  for (const piece of pieces) {
    // A piece of a compressed file may come to two megabytes at once.
    for (let at = 0; at < piece.length; at += SLICE) {
      push(piece.subarray(at, at + SLICE));
      yield;
    }
  }
}
