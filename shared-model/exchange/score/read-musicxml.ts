/**
 * MusicXML 4.0 (W3C Music Notation Community Group, 2021), score-partwise, read as it streams by: nothing but the present note
 * and measure is kept in pieces. The parser expands no entities but the five of XML itself.
 */
import { type SaxesAttributePlain, SaxesParser, type SaxesTagPlain } from "saxes";
import { emptyMeasure, type WrittenScore } from "./measure.ts";
import { createPartReader, type PartReader } from "./part-reader.ts";
import { unpitchedByName } from "./percussion.ts";
import { broken, cleanName, PARTS_MAX, tooMany, Unreadable } from "./score-facts.ts";
import { textOf, unpackScore } from "./unpack.ts";

/** No score lies deeper. */
const DEPTH_MAX = 64;
/** Longest text of an element that is read; what is longer belongs to none we read. */
const TEXT_MAX = 400;
const ATTRIBUTES_MAX = 100;

/** One sound of a part, as the part list names it. */
interface Instrument {
  name: string;
  /** Key of the percussion map; null = it plays notes. */
  key: number | null;
}

interface ListedPart {
  readonly id: string;
  name: string;
  program: number | null;
  percussion: boolean;
  readonly instruments: Map<string, Instrument>;
}

const wholeIn = (text: string, low: number, high: number): number | null => {
  const n = Number(text.trim() || Number.NaN);
  return Number.isInteger(n) && n >= low && n <= high ? n : null;
};

/** What the part list says, element by element. */
const createPartList = () => {
  const listed: ListedPart[] = [];
  const part = () => listed.at(-1);
  let instrument = "";
  return {
    listed,
    open: (name: string, attributes: Readonly<Record<string, string>>) => {
      if (name === "score-part") {
        if (listed.length === PARTS_MAX) throw tooMany("parts", PARTS_MAX);
        listed.push({
          id: attributes.id ?? "",
          name: "",
          program: null,
          percussion: false,
          instruments: new Map(),
        });
      }
      if (name === "score-instrument" || name === "midi-instrument") {
        instrument = attributes.id ?? "";
        const known = part()?.instruments;
        if (known && known.size < 200 && !known.has(instrument))
          known.set(instrument, { name: "", key: null });
      }
    },
    close: (name: string, parent: string, text: string) => {
      const now = part();
      if (now === undefined) return;
      const sound = now.instruments.get(instrument);
      if (name === "part-name" && parent === "score-part") now.name = cleanName(text);
      if (name === "instrument-name" && sound) sound.name = cleanName(text);
      // Channels, programs and percussion keys count from 1 here and from 0 in a MIDI file.
      if (name === "midi-channel" && wholeIn(text, 1, 16) === 10) now.percussion = true;
      if (name === "midi-program")
        now.program ??= (wholeIn(text, 1, 128) ?? 0) - 1 < 0 ? null : Number(text) - 1;
      if (name === "midi-unpitched" && sound)
        sound.key = (wholeIn(text, 1, 128) ?? 0) - 1 < 0 ? null : Number(text) - 1;
    },
  };
};

const attributesOf = (tag: SaxesTagPlain): Readonly<Record<string, string>> =>
  tag.attributes as Readonly<Record<string, string>>;

/** Reads the elements of one score. */
const createReader = () => {
  const score: WrittenScore = { title: "", measures: [], parts: [] };
  const list = createPartList();
  const path: string[] = [];
  let text = "";
  let reader: PartReader | null = null;
  let index = -1;

  const beginPart = (id: string) => {
    if (score.parts.length === PARTS_MAX) throw tooMany("parts", PARTS_MAX);
    const listed = list.listed.find((part) => part.id === id);
    const part = {
      name: listed?.name ?? "",
      program: listed?.percussion ? null : (listed?.program ?? null),
      percussion: listed?.percussion ?? false,
      measures: [],
    };
    score.parts.push(part);
    index = -1;
    reader = createPartReader(part, (instrument) => {
      const sound = listed?.instruments.get(instrument ?? [...(listed?.instruments.keys() ?? [])][0] ?? "");
      return sound === undefined ? null : (sound.key ?? unpitchedByName(sound.name));
    });
  };

  const beginMeasure = () => {
    index += 1;
    let measure = score.measures[index];
    if (measure === undefined) {
      measure = emptyMeasure();
      score.measures.push(measure);
    }
    reader?.begin(measure, index);
  };

  const open = (name: string, attributes: Readonly<Record<string, string>>) => {
    if (path.length === 0 && name === "score-timewise")
      throw new Unreadable(
        "The score is written bar by bar for all parts. Save it as score-partwise MusicXML.",
      );
    if (path.length === 0 && name !== "score-partwise")
      throw new Unreadable("This is no score. Choose a MIDI file or MusicXML (.mid, .musicxml, .xml, .mxl).");
    path.push(name);
    if (path.length > DEPTH_MAX) throw broken("its elements lie too deep in each other");
    text = "";
    if (path[1] === "part-list") list.open(name, attributes);
    else if (path[1] === "part") {
      if (path.length === 2) beginPart(attributes.id ?? "");
      else if (path.length === 3 && name === "measure") beginMeasure();
      else reader?.open(name, attributes);
    }
  };

  const close = (name: string) => {
    const parent = path.at(-2) ?? "";
    if (path[1] === "part-list") list.close(name, parent, text);
    else if (path[1] === "part" && path.length > 3) reader?.close(name, parent, text);
    else if (path[1] === "part" && path.length === 3 && name === "measure") reader?.end();
    else if ((name === "work-title" || name === "movement-title") && score.title === "")
      score.title = cleanName(text);
    path.pop();
    text = "";
  };

  return {
    score,
    open,
    close,
    text: (part: string) => {
      if (text.length < TEXT_MAX) text += part.slice(0, TEXT_MAX);
    },
  };
};

/** Reads a plain or compressed score, a piece at a time. Throws `Unreadable`. */
export function* readMusicXml(bytes: Uint8Array): Generator<void, WrittenScore> {
  const pieces = yield* unpackScore(bytes);
  const reader = createReader();
  const parser = new SaxesParser();
  let attributes = 0;
  const fail = (error: Error): never => {
    if (error instanceof Unreadable) throw error;
    throw broken(`it is no well-formed XML near line ${parser.line}`);
  };
  parser.on("error", fail);
  parser.on("attribute", (_: SaxesAttributePlain) => {
    attributes += 1;
    if (attributes > ATTRIBUTES_MAX) throw broken("an element has too many attributes");
  });
  parser.on("opentag", (tag) => {
    attributes = 0;
    reader.open(tag.name, attributesOf(tag));
  });
  parser.on("closetag", (tag) => reader.close(tag.name));
  parser.on("text", reader.text);
  parser.on("cdata", reader.text);
  yield* textOf(pieces, (text) => {
    parser.write(text);
  });
  parser.close();
  if (reader.score.measures.length === 0)
    throw new Unreadable("There are no bars in this score. Choose one in which something is written.");
  return reader.score;
}
