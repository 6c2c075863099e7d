import type { Voice } from "#shared/board/voice.ts";
import type { Key } from "#shared/music/key.ts";
import type { Melody } from "#shared/music/key-fit/melody.ts";
import { noteName } from "#shared/music/note-name.ts";

/** From the lowest to the highest pitch of a picture. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** What the voice and the melodies need, with a semitone to spare at both ends. */
export const spanOf = (voice: Voice, melodies: readonly Melody[]): Span => {
  const pitches = [voice.lowest, voice.highest, ...melodies.flatMap((melody) => [...melody.keys()])];
  return { from: Math.min(...pitches) - 1, to: Math.max(...pitches) + 1 };
};

const HEIGHT = 24;
const LEAST = 2;

const fillOf = (pitch: number, voice: Voice): string =>
  pitch > voice.highest || pitch < voice.lowest
    ? "fill-slip"
    : pitch > voice.comfortHigh || pitch < voice.comfortLow
      ? "fill-accent"
      : "fill-ink";

export interface RangeStripProps {
  readonly voice: Voice;
  readonly melody: Melody;
  readonly span: Span;
}

/**
 * Where a melody lies in a voice: the voice as a frame, its comfortable part filled, a bar for each note as high as its
 * share of the time. The words beside it say the same.
 */
export const RangeStrip = ({ voice, melody, span }: RangeStripProps) => {
  const most = Math.max(...melody.values());
  const x = (pitch: number): number => pitch - span.from;
  return (
    <svg
      aria-hidden="true"
      viewBox={`0 0 ${span.to - span.from + 1} ${HEIGHT}`}
      preserveAspectRatio="none"
      className="block h-8 w-full"
    >
      <rect
        x={x(voice.lowest)}
        y={0}
        width={voice.highest - voice.lowest + 1}
        height={HEIGHT}
        className="fill-none stroke-control"
        vectorEffect="non-scaling-stroke"
      />
      <rect
        x={x(voice.comfortLow)}
        y={0}
        width={voice.comfortHigh - voice.comfortLow + 1}
        height={HEIGHT}
        className="fill-line"
      />
      {[...melody].map(([pitch, share]) => {
        const height = Math.max(LEAST, (share / most) * (HEIGHT - 4));
        return (
          <rect
            key={pitch}
            x={x(pitch) + 0.12}
            y={HEIGHT - height}
            width={0.76}
            height={height}
            className={fillOf(pitch, voice)}
          />
        );
      })}
    </svg>
  );
};

const EDGES = ["lowest", "comfortLow", "comfortHigh", "highest"] as const;

/** The four notes of the voice over the strips, each over its place: the outer ones above, the comfortable ones below. */
export const RangeScale = ({
  voice,
  span,
  spelling,
}: {
  readonly voice: Voice;
  readonly span: Span;
  readonly spelling: Key;
}) => (
  <div aria-hidden="true" className="relative h-10 text-small text-quiet">
    {EDGES.map((edge) => (
      <span
        key={edge}
        className={`absolute -translate-x-1/2 ${edge.startsWith("comfort") ? "bottom-0" : "top-0"}`}
        style={{ left: `${((voice[edge] - span.from + 0.5) / (span.to - span.from + 1)) * 100}%` }}
      >
        {noteName(voice[edge], spelling)}
      </span>
    ))}
  </div>
);
