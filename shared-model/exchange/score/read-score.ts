/** Reads a song from a file in an open format, a little at a time, so that a page can answer meanwhile. */
import { err, ok, type Result } from "../../lib/result.ts";
import { midiFacts } from "./midi-facts.ts";
import { musicXmlFacts } from "./musicxml-facts.ts";
import { isMidi, readMidi } from "./read-midi.ts";
import { readMusicXml } from "./read-musicxml.ts";
import { FILE_BYTES_MAX, type ScoreFacts, Unreadable } from "./score-facts.ts";
import { isZip } from "./unpack.ts";

/** How the input of a file picker is limited. */
export const SCORE_FILES = ".mid,.midi,.kar,.musicxml,.xml,.mxl";

const beginsLikeXml = (bytes: Uint8Array): boolean => {
  const head = bytes.subarray(0, 64).filter((byte) => byte > 0x20 && byte < 0x80);
  return head[0] === 0x3c;
};

const factsOf = function* (bytes: Uint8Array): Generator<void, ScoreFacts> {
  if (isMidi(bytes)) return midiFacts(yield* readMidi(bytes));
  if (!isZip(bytes) && !beginsLikeXml(bytes))
    throw new Unreadable(
      "This is neither MIDI nor MusicXML. Choose a file that ends in .mid, .musicxml, .xml or .mxl.",
    );
  return musicXmlFacts(yield* readMusicXml(bytes));
};

/** The facts, or one or two sentences that say what is wrong and what to do. The bytes are not kept. */
export function* readScore(bytes: Uint8Array): Generator<void, Result<ScoreFacts>> {
  if (bytes.length === 0) return err("The file is empty. Export it again where it was made.");
  if (bytes.length > FILE_BYTES_MAX)
    return err(
      `The file is larger than ${FILE_BYTES_MAX / 1024 / 1024} MB. A song comes to far less: export only this song, without pictures.`,
    );
  try {
    return ok(yield* factsOf(bytes));
  } catch (error) {
    if (error instanceof Unreadable) return err(error.message);
    throw error;
  }
}
