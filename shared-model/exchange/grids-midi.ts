/** A song's grids as a Standard MIDI File, format 1. Sources: MMA/AMEI RP-001; percussion keys and programs RP-003. */
import { type Key, pitchClassOf, signatureOf } from "../music/key.ts";
import { beatsPerBar, isCompound, type Metre } from "../music/metre.ts";
import type { GridScore, ScoreBlock, ScorePart, Stroke } from "./grid-score.ts";
import type { Pitched, Sound } from "./grid-sounds.ts";
import { headerChunk, type TimedEvent, textEvent, trackChunk, wide } from "./midi-bytes.ts";

/** Ticks of a crotchet: whole steps in halves, thirds, quarters, fifths, sixths and eighths; others are rounded. */
const CROTCHET = 960;
/** Channel 10, counted from 0. */
const DRUM_CHANNEL = 9;
const CHANNELS = 16;

/** Common practice, no published source. */
const VELOCITY: { readonly [S in Stroke]: number } = { x: 80, X: 112, o: 40 };

const TEXT = 0x01;
const NAME = 0x03;
const MARKER = 0x06;
const TEMPO = 0x51;
const METRE = 0x58;
const KEY = 0x59;

/** The file's bytes. One block after another; a marker names the place of each, a text what its detail says. */
export const writeMidi = (score: GridScore): Uint8Array<ArrayBuffer> => {
  const starts: number[] = [];
  let end = 0;
  for (const block of score.blocks) {
    starts.push(end);
    end += block.bars * beatsPerBar(block.metre) * beatTicks(block.metre);
  }
  const tracks = [
    trackChunk([{ tick: 0, bytes: textEvent(NAME, score.title) }, ...conductor(score.blocks, starts)], end),
    ...score.parts.map((part, index) =>
      trackChunk(partEvents(part, channelOf(part, index), score.blocks, starts), end),
    ),
  ];
  return joined([headerChunk(tracks.length, CROTCHET), ...tracks]);
};

/** Ticks of one counted beat. */
const beatTicks = (metre: Metre): number => ((CROTCHET * 4) / metre.unit) * (isCompound(metre) ? 3 : 1);

/** Tempo, metre, key and place of each block; what has not changed is not said again. */
const conductor = (blocks: readonly ScoreBlock[], starts: readonly number[]): readonly TimedEvent[] => {
  const said = new Map<number, string>();
  return blocks.flatMap((block, index) => {
    const tick = starts[index] ?? 0;
    const lasting = [metreEvent(block.metre), tempoEvent(block), ...keyEvent(block.key)].filter((bytes) => {
      const type = bytes[1] ?? 0;
      const news = said.get(type) !== String(bytes);
      said.set(type, String(bytes));
      return news;
    });
    return [...lasting, textEvent(MARKER, block.place), textEvent(TEXT, block.words)].map((bytes) => ({
      tick,
      bytes,
    }));
  });
};

/** `nn dd cc bb`: beats, the power of two below the line, MIDI clocks (24 a crotchet) of a counted beat, 8. */
const metreEvent = (metre: Metre): readonly number[] => {
  const units = metre.groups.reduce((sum, count) => sum + count, 0);
  const clocks = Math.max(1, Math.round((beatTicks(metre) * 24) / CROTCHET));
  return [0xff, METRE, 4, units, Math.log2(metre.unit), clocks, 8];
};

/** Microseconds of a crotchet, in three bytes. */
const tempoEvent = ({ tempo, metre }: ScoreBlock): readonly number[] => {
  const microseconds = Math.round((60_000_000 / tempo) * (CROTCHET / beatTicks(metre)));
  return [0xff, TEMPO, 3, ...wide(Math.min(0xffffff, microseconds), 3)];
};

const keyEvent = (key: Key | null): readonly (readonly number[])[] =>
  key === null ? [] : [[0xff, KEY, 2, signatureOf(key) & 0xff, key.mode === "minor" ? 1 : 0]];

const channelOf = ({ sounds }: ScorePart, index: number): number => {
  if (sounds[0]?.kind === "struck") return DRUM_CHANNEL;
  const melodic = index % (CHANNELS - 1);
  return melodic < DRUM_CHANNEL ? melodic : melodic + 1;
};

const partEvents = (
  part: ScorePart,
  channel: number,
  blocks: readonly ScoreBlock[],
  starts: readonly number[],
): readonly TimedEvent[] => {
  const events: TimedEvent[] = [{ tick: 0, bytes: textEvent(NAME, part.name) }];
  const [sound] = part.sounds;
  if (sound?.kind === "pitched") events.push({ tick: 0, bytes: [0xc0 | channel, sound.pitched.program] });
  const offs: TimedEvent[] = [];
  const ons: TimedEvent[] = [];
  for (const [index, block] of blocks.entries()) {
    const tickOf = (step: number): number =>
      (starts[index] ?? 0) + Math.round((step / block.perBeat) * beatTicks(block.metre));
    for (const line of block.lines) {
      if (line.part !== part.id) continue;
      const pitch = pitchOf(line.sound, block.key);
      for (const { start, steps, stroke } of line.notes) {
        ons.push({ tick: tickOf(start), bytes: [0x90 | channel, pitch, VELOCITY[stroke]] });
        offs.push({ tick: tickOf(start + steps), bytes: [0x80 | channel, pitch, 64] });
      }
    }
  }
  // What ends at a tick ends before what begins there.
  return [...events, ...offs, ...ons];
};

/** MIDI number of a sound: its key of the kit, or the key note in its register. */
const pitchOf = (sound: Sound, key: Key | null): number =>
  sound.kind === "struck" ? sound.struck.key : keyNote(sound.pitched, key);

/** The key note in a register as a MIDI number; C where no key is settled. */
export const keyNote = ({ lowest }: Pitched, key: Key | null): number =>
  lowest + (((((key === null ? 0 : pitchClassOf(key)) - lowest) % 12) + 12) % 12);

const joined = (chunks: readonly Uint8Array[]): Uint8Array<ArrayBuffer> => {
  const bytes = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
};
