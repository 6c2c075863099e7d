/** The bytes of a Standard MIDI File. Source: MMA/AMEI RP-001, Standard MIDI Files 1.0 (1988, rev. 1996). */

/** Most a variable-length quantity can say. */
export const QUANTITY_MOST = 0x0fffffff;

/** Seven bits a byte, the highest first, the eighth bit set on all but the last ("Conventions"). */
export const quantity = (value: number): readonly number[] => {
  if (!Number.isInteger(value) || value < 0 || value > QUANTITY_MOST)
    throw new RangeError(`no quantity ${value}`);
  const bytes = [value & 0x7f];
  for (let rest = value >>> 7; rest > 0; rest >>>= 7) bytes.unshift((rest & 0x7f) | 0x80);
  return bytes;
};

/** A whole number in so many bytes, the highest first. */
export const wide = (value: number, bytes: number): readonly number[] =>
  Array.from({ length: bytes }, (_, n) => (value >>> (8 * (bytes - 1 - n))) & 0xff);

/** A text of a meta event. The standard promises ASCII; UTF-8 is common practice beyond it. */
export const textEvent = (type: number, text: string): readonly number[] => {
  const bytes = [...utf8(text)];
  return [0xff, type, ...quantity(bytes.length), ...bytes];
};

/** Something that happens at a tick: a whole event without its time. */
export interface TimedEvent {
  readonly tick: number;
  readonly bytes: readonly number[];
}

const END_OF_TRACK = [0xff, 0x2f, 0x00];

/** A track chunk. Events of one tick stay in the order given; `end` is the tick of its end. */
export const trackChunk = (events: readonly TimedEvent[], end: number): Uint8Array => {
  const data: number[] = [];
  let now = 0;
  for (const { tick, bytes } of [...events].sort((a, b) => a.tick - b.tick)) {
    data.push(...quantity(tick - now), ...bytes);
    now = tick;
  }
  data.push(...quantity(Math.max(0, end - now)), ...END_OF_TRACK);
  return chunk("MTrk", data);
};

/** A header chunk of format 1. `division`: ticks of a crotchet. */
export const headerChunk = (tracks: number, division: number): Uint8Array =>
  chunk("MThd", [...wide(1, 2), ...wide(tracks, 2), ...wide(division, 2)]);

const chunk = (name: string, data: readonly number[]): Uint8Array =>
  Uint8Array.from([...utf8(name), ...wide(data.length, 4), ...data]);

/** RFC 3629; half a surrogate pair becomes U+FFFD. */
const utf8 = (text: string): readonly number[] =>
  [...text].flatMap((character) => {
    const point = character.codePointAt(0) ?? 0;
    if (point < 0x80) return [point];
    if (point >= 0xd800 && point <= 0xdfff) return [0xef, 0xbf, 0xbd];
    const tail = (shift: number): number => 0x80 | ((point >>> shift) & 0x3f);
    if (point < 0x800) return [0xc0 | (point >>> 6), tail(0)];
    if (point < 0x10000) return [0xe0 | (point >>> 12), tail(6), tail(0)];
    return [0xf0 | (point >>> 18), tail(12), tail(6), tail(0)];
  });
