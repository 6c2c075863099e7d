/** MIDI files for tests, written by the midi-file package, so that the reader is not judged by a writer of its own. */
import { type MidiEvent, writeMidi } from "midi-file";

export interface TestNote {
  /** Quarter notes from the beginning. */
  readonly at: number;
  readonly length: number;
  readonly pitch: number;
  readonly velocity?: number;
}

export interface TestTrack {
  readonly name?: string;
  readonly channel: number;
  /** Counted from 0. */
  readonly program?: number;
  readonly notes: readonly TestNote[];
}

export interface TestSong {
  readonly format?: 0 | 1;
  readonly division?: number;
  readonly title?: string;
  readonly tempos?: readonly { readonly at: number; readonly quarters: number }[];
  readonly metres?: readonly { readonly at: number; readonly beats: number; readonly unit: number }[];
  readonly keys?: readonly { readonly at: number; readonly signature: number; readonly minor?: boolean }[];
  readonly marks?: readonly { readonly at: number; readonly name: string }[];
  /** Words under the notes, which nobody must ever see again. */
  readonly sung?: readonly string[];
  readonly tracks: readonly TestTrack[];
}

type Timed = readonly [at: number, order: number, event: Omit<MidiEvent, "deltaTime">];

const inDeltas = (events: readonly Timed[], division: number): MidiEvent[] => {
  let before = 0;
  const ordered = [...events].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const out = ordered.map(([at, , event]) => {
    const tick = Math.round(at * division);
    const deltaTime = tick - before;
    before = tick;
    return { ...event, deltaTime } as MidiEvent;
  });
  return [...out, { deltaTime: 0, meta: true, type: "endOfTrack" } as MidiEvent];
};

const songEvents = (song: TestSong): readonly Timed[] => [
  ...(song.title ? [[0, 0, { meta: true, type: "trackName", text: song.title }] as never] : []),
  ...(song.tempos ?? []).map(
    ({ at, quarters }) =>
      [at, 1, { meta: true, type: "setTempo", microsecondsPerBeat: Math.round(60e6 / quarters) }] as never,
  ),
  ...(song.metres ?? []).map(
    ({ at, beats, unit }) =>
      [
        at,
        1,
        {
          meta: true,
          type: "timeSignature",
          numerator: beats,
          denominator: unit,
          metronome: 24,
          thirtyseconds: 8,
        },
      ] as never,
  ),
  ...(song.keys ?? []).map(
    ({ at, signature, minor }) =>
      [at, 1, { meta: true, type: "keySignature", key: signature, scale: minor ? 1 : 0 }] as never,
  ),
  ...(song.marks ?? []).map(({ at, name }) => [at, 1, { meta: true, type: "marker", text: name }] as never),
  ...(song.sung ?? []).map((text, i) => [i, 2, { meta: true, type: "lyrics", text }] as never),
];

const trackEvents = ({ name, channel, program, notes }: TestTrack): readonly Timed[] => [
  ...(name ? [[0, 0, { meta: true, type: "trackName", text: name }] as never] : []),
  ...(program === undefined
    ? []
    : [[0, 2, { type: "programChange", channel, programNumber: program }] as never]),
  ...notes.flatMap(({ at, length, pitch, velocity = 80 }) => [
    [at, 4, { type: "noteOn", channel, noteNumber: pitch, velocity }] as never,
    [at + length, 3, { type: "noteOff", channel, noteNumber: pitch, velocity: 0 }] as never,
  ]),
];

/** `running`: with running status and note-ons of velocity 0, as most programs write. */
export const midiOf = (song: TestSong, running = true): Uint8Array => {
  const division = song.division ?? 480;
  const format = song.format ?? 1;
  const tracks =
    format === 0
      ? [inDeltas([...songEvents(song), ...song.tracks.flatMap(trackEvents)], division)]
      : [songEvents(song), ...song.tracks.map(trackEvents)].map((events) => inDeltas(events, division));
  return Uint8Array.from(
    writeMidi(
      { header: { format, numTracks: tracks.length, ticksPerBeat: division }, tracks },
      { running, useByte9ForNoteOff: running },
    ),
  );
};

/** Runs a reading to its end. */
export const drain = <T>(steps: Generator<void, T>): T => {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
};
