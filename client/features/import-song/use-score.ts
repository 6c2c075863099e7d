import { useCallback, useEffect, useRef, useState } from "react";
import { inSlices } from "#client/pieces/in-slices.ts";
import { type FoundSong, findInScore } from "#shared/exchange/score/found-song.ts";
import { readScore } from "#shared/exchange/score/read-score.ts";
import { FILE_BYTES_MAX } from "#shared/exchange/score/score-facts.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";

/** A file that was chosen; `result` is null while it is read. */
export interface ReadScore {
  readonly name: string;
  readonly result: Result<FoundSong> | null;
}

/** Reads step by step; the last step is what came of it. */
function* steps(bytes: Uint8Array): Generator<Result<FoundSong> | null, void> {
  try {
    const reading = readScore(bytes);
    let step = reading.next();
    while (!step.done) {
      yield null;
      step = reading.next();
    }
    yield step.value.ok ? ok(findInScore(step.value.value)) : step.value;
  } catch {
    yield err(
      "Something in this file was not understood. Export it again in the other format, MIDI or MusicXML.",
    );
  }
}

/** Reads one file at a time on this device, a few milliseconds at a stretch. */
export const useScore = (onRead: (name: string, result: Result<FoundSong>) => void) => {
  const [read, setRead] = useState<ReadScore | null>(null);
  const stop = useRef<() => void>(() => {});
  useEffect(() => () => stop.current(), []);
  const choose = useCallback(
    async (file: File): Promise<void> => {
      stop.current();
      setRead({ name: file.name, result: null });
      // A byte more than may be is enough to say that it is too many.
      const bytes = new Uint8Array(await file.slice(0, FILE_BYTES_MAX + 1).arrayBuffer());
      stop.current = inSlices(steps(bytes), (found) => {
        const result = found.at(-1) ?? err("The file could not be read. Choose it again.");
        setRead({ name: file.name, result });
        onRead(file.name, result);
      });
    },
    [onRead],
  );
  return { read, choose };
};
