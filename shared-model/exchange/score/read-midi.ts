/**
 * Standard MIDI Files 1.0 (MMA RP-001), formats 0 and 1: what is needed of each event, and where it stands in ticks.
 * Every length is checked against the bytes there are, so a damaged file costs no more than its size.
 */
import { strFromU8 } from "fflate";
import { broken, cleanName, NOTES_MAX, tooMany, Unreadable } from "./score-facts.ts";

/** A note of one channel; ticks from the beginning of the file. */
export interface MidiNote {
  readonly at: number;
  end: number;
  readonly pitch: number;
  /** 1 to 127. */
  readonly velocity: number;
}

/** What one channel of one track plays. */
export interface MidiVoice {
  readonly track: number;
  /** 0 to 15; 9 is percussion. */
  readonly channel: number;
  program: number | null;
  readonly notes: MidiNote[];
}

export interface MidiFile {
  readonly format: 0 | 1;
  /** Ticks in a quarter note. */
  readonly division: number;
  /** Name of each track; empty = none. */
  readonly names: string[];
  readonly voices: MidiVoice[];
  /** Microseconds in a quarter note. */
  readonly tempos: { readonly at: number; readonly micros: number }[];
  readonly metres: { readonly at: number; readonly beats: number; readonly unit: number }[];
  readonly keys: { readonly at: number; readonly signature: number; readonly minor: boolean }[];
  readonly markers: { readonly at: number; readonly name: string }[];
}

/** Events between two chances for the page to answer. */
const SLICE = 4000;
const HEADER = 14;
const PERCUSSION = 9;
/** Markers of one file; more are no form. */
const MARKERS_MAX = 400;

const tagAt = (bytes: Uint8Array, at: number): string => strFromU8(bytes.subarray(at, at + 4), true);
const numberAt = (bytes: Uint8Array, at: number, width: number): number => {
  let n = 0;
  for (let i = 0; i < width; i += 1) n = n * 256 + (bytes[at + i] ?? 0);
  return n;
};

/** Text of a meta event: UTF-8 where it is, else one byte a letter, as the format's first programs wrote it. */
const textOf = (bytes: Uint8Array): string => {
  const short = bytes.subarray(0, 400);
  const text = strFromU8(short);
  return cleanName(text.includes("�") ? strFromU8(short, true) : text);
};

/** Reads the bytes of one track in order. */
class Cursor {
  at = 0;
  readonly bytes: Uint8Array;
  readonly track: number;
  constructor(bytes: Uint8Array, track: number) {
    this.bytes = bytes;
    this.track = track;
  }

  get done(): boolean {
    return this.at >= this.bytes.length;
  }

  fault(what: string): Unreadable {
    return broken(`track ${this.track + 1} ${what} at byte ${this.at}`);
  }

  byte(): number {
    const byte = this.bytes[this.at];
    if (byte === undefined) throw this.fault("breaks off");
    this.at += 1;
    return byte;
  }

  /** A number below 128. */
  data(): number {
    const byte = this.byte();
    if (byte > 0x7f) throw this.fault("has a command where a number belongs");
    return byte;
  }

  /** A variable-length quantity: at most four bytes. */
  quantity(): number {
    let n = 0;
    for (let i = 0; i < 4; i += 1) {
      const byte = this.byte();
      n = n * 128 + (byte & 0x7f);
      if (byte < 0x80) return n;
    }
    throw this.fault("has a number without an end");
  }

  take(length: number): Uint8Array {
    if (length > this.bytes.length - this.at) throw this.fault("says that something is longer than the file");
    this.at += length;
    return this.bytes.subarray(this.at - length, this.at);
  }
}

/** One value a number: reads a variable-length quantity that stands alone. Throws `Unreadable`. */
export const readQuantity = (bytes: Uint8Array): number => new Cursor(bytes, 0).quantity();

const readMeta = (file: MidiFile, cursor: Cursor, at: number): boolean => {
  const kind = cursor.byte();
  const data = cursor.take(cursor.quantity());
  if (kind === 0x2f) return true;
  if (kind === 0x03 && file.names[cursor.track] === "") file.names[cursor.track] = textOf(data);
  if (kind === 0x06 && file.markers.length < MARKERS_MAX) file.markers.push({ at, name: textOf(data) });
  if (kind === 0x51 && data.length >= 3) {
    const micros = numberAt(data, 0, 3);
    if (micros > 0) file.tempos.push({ at, micros });
  }
  if (kind === 0x58 && data.length >= 2) {
    const [beats = 0, power = 0] = data;
    if (beats > 0 && beats < 100 && power <= 5) file.metres.push({ at, beats, unit: 2 ** power });
  }
  if (kind === 0x59 && data.length >= 2) {
    const signature = ((data[0] ?? 0) << 24) >> 24;
    if (Math.abs(signature) <= 7) file.keys.push({ at, signature, minor: data[1] === 1 });
  }
  return false;
};

/** What one track plays, channel by channel, with the notes that still sound. */
const trackPlayer = (file: MidiFile, track: number, count: { notes: number }) => {
  const voices = new Map<number, MidiVoice>();
  const sounding = new Map<number, MidiNote[]>();
  const voice = (channel: number): MidiVoice => {
    const known = voices.get(channel);
    if (known) return known;
    const made: MidiVoice = { track, channel, program: null, notes: [] };
    voices.set(channel, made);
    file.voices.push(made);
    return made;
  };
  return {
    program: (channel: number, program: number) => {
      const on = voice(channel);
      // What is played with the first sound is what the part is; later changes are of colour.
      if (on.program === null || on.notes.length === 0) on.program = program;
    },
    begin: (channel: number, pitch: number, velocity: number, at: number) => {
      count.notes += 1;
      if (count.notes > NOTES_MAX) throw tooMany("notes", NOTES_MAX);
      const note: MidiNote = { at, end: at, pitch, velocity };
      voice(channel).notes.push(note);
      const key = channel * 128 + pitch;
      const open = sounding.get(key);
      if (open) open.push(note);
      else sounding.set(key, [note]);
    },
    end: (channel: number, pitch: number, at: number) => {
      const note = sounding.get(channel * 128 + pitch)?.shift();
      if (note) note.end = at;
    },
    /** Notes nobody ended end with the track, if the track goes on; percussion just rings. */
    close: (at: number) => {
      for (const [key, notes] of sounding)
        if (Math.floor(key / 128) !== PERCUSSION) for (const note of notes) note.end = Math.max(note.at, at);
    },
  };
};

function* readTrack(file: MidiFile, bytes: Uint8Array, track: number, count: { notes: number }) {
  const cursor = new Cursor(bytes, track);
  const player = trackPlayer(file, track, count);
  let at = 0;
  let status = 0;
  /** Where the last thing happened that can be heard. */
  let heard = 0;
  for (let events = 1; !cursor.done; events += 1) {
    if (events % SLICE === 0) yield;
    at += cursor.quantity();
    const first = cursor.byte();
    // What is said between notes leaves the running status as it was: the specification ends it there, many writers do not.
    if (first === 0xff) {
      if (readMeta(file, cursor, at)) break;
    } else if (first === 0xf0 || first === 0xf7) {
      cursor.take(cursor.quantity());
    } else {
      const running = first < 0x80;
      if (!running) status = first;
      if (status < 0x80 || status > 0xef) throw cursor.fault("has an event of no known kind");
      const a = running ? first : cursor.data();
      const kind = status >> 4;
      const channel = status & 0x0f;
      const b = kind === 0xc || kind === 0xd ? 0 : cursor.data();
      heard = at;
      if (kind === 0x9 && b > 0) player.begin(channel, a, b, at);
      else if (kind === 0x8 || kind === 0x9) player.end(channel, a, at);
      else if (kind === 0xc) player.program(channel, a);
    }
  }
  player.close(heard);
}

/** True where the bytes begin like a MIDI file, bare or in the RIFF wrapping some programs give it. */
export const isMidi = (bytes: Uint8Array): boolean =>
  tagAt(bytes, 0) === "MThd" || (tagAt(bytes, 0) === "RIFF" && tagAt(bytes, 20) === "MThd");

/** Reads a file, a few thousand events at a time. Throws `Unreadable`. */
export function* readMidi(whole: Uint8Array): Generator<void, MidiFile> {
  const bytes = tagAt(whole, 0) === "RIFF" ? whole.subarray(20) : whole;
  const length = numberAt(bytes, 4, 4);
  if (bytes.length < HEADER || length < 6 || length > bytes.length - 8) throw broken("its head breaks off");
  const [format, tracks, division] = [8, 10, 12].map((at) => numberAt(bytes, at, 2)) as [
    number,
    number,
    number,
  ];
  if (format > 1)
    throw new Unreadable(
      `The file holds ${format === 2 ? "patterns that stand side by side" : "MIDI of a kind that is not known"}, no song from beginning to end. Export it as format 0 or 1.`,
    );
  if (division >= 0x8000)
    throw new Unreadable(
      "The file counts in frames of film, so it has no bars. Export it with beats (ticks in a quarter note).",
    );
  if (division === 0) throw broken("a quarter note has no length in it");
  const file: MidiFile = {
    format: format === 0 ? 0 : 1,
    division,
    names: [],
    voices: [],
    tempos: [],
    metres: [],
    keys: [],
    markers: [],
  };
  const count = { notes: 0 };
  let at = 8 + length;
  while (file.names.length < tracks && at + 8 <= bytes.length) {
    const size = numberAt(bytes, at + 4, 4);
    if (size > bytes.length - at - 8) throw broken(`it ends in the middle of track ${file.names.length + 1}`);
    // Chunks of other kinds may stand between tracks; the specification has readers pass over them.
    if (tagAt(bytes, at) === "MTrk") {
      file.names.push("");
      yield* readTrack(file, bytes.subarray(at + 8, at + 8 + size), file.names.length - 1, count);
    }
    at += 8 + size;
    yield;
  }
  if (file.names.length < tracks) throw broken(`it ends after ${file.names.length} of its ${tracks} tracks`);
  return file;
}
