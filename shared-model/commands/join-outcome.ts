/**
 * What becomes of two sections that are joined, for whoever is about to do it and for the command that does.
 * Governing rule: bars never change what they are, so sections of two metres are not joined; what one section cannot say
 * of its second half, a tempo or a change of key, is named before.
 */
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Section } from "../board/song.ts";
import { TEXTURE_SOURCES, type TextureChanges, type TextureSource, textureKey } from "../board/texture.ts";
import { BARS_MAX } from "../document/schema.ts";
import { parseKey, showKey } from "../music/key.ts";
import { joinedChanges } from "../music/texture-changes.ts";

type Form = Pick<SongFile, "song" | "sections" | "textures">;

/** What is said of one chair in the section that two have become. */
export interface JoinedCell {
  readonly chair: Id;
  readonly source: TextureSource;
  readonly changes: TextureChanges;
}

export interface JoinOutcome {
  readonly first: Section;
  readonly next: Section;
  /** One sentence that says why not and what to do; null = they can be joined. */
  readonly refusal: string | null;
  /** What is lost or supposed, a sentence each; empty = nothing is. */
  readonly told: readonly string[];
  /** A later section that has to say the key now, as the one that said it is gone; null = none has. */
  readonly keyGoesTo: { readonly section: Id; readonly key: string } | null;
  readonly cells: readonly JoinedCell[];
}

const shown = (key: string): string => {
  const read = parseKey(key);
  return read.ok ? showKey(read.value) : key;
};

const refusalOf = (first: Section, next: Section, usual: string): string | null => {
  const repeated = [first, next].find(({ repeats }) => repeats > 1);
  if (repeated !== undefined)
    return `${repeated.name} comes ${repeated.repeats} times in a row and cannot be joined. Write it out first.`;
  const [one, two] = [first.metre || usual, next.metre || usual];
  if (one !== two)
    return `${first.name} is in ${one} and ${next.name} in ${two}: a section has one metre. Give both the same, or leave them apart.`;
  return first.bars + next.bars > BARS_MAX ? `A section has at most ${BARS_MAX} bars.` : null;
};

/** Key that a section stands in; empty = not settled. */
const keyIn = ({ song, sections }: Form, at: number): string =>
  sections.slice(0, at + 1).findLast(({ key }) => key !== "")?.key ?? song.key;

const tempoTold = (first: Section, next: Section, usual: number | null): readonly string[] => {
  const [one, two] = [first.tempo ?? usual, next.tempo ?? usual];
  if (one === two || two === null) return [];
  return [
    one === null
      ? `The tempo of ${next.name}, ${two}, is lost: ${first.name} has none.`
      : `The tempo of ${next.name}, ${two}, is lost: all of it is at ${one}, as ${first.name} is.`,
  ];
};

/** What is painted of a chair in a section; what is not painted as ours is played as recorded. */
const painted = (
  { textures }: Pick<Form, "textures">,
  section: Id,
  chair: Id,
  source: TextureSource,
): TextureChanges => {
  const own = textures.get(textureKey(section, chair, source)) ?? [];
  if (own.length > 0 || source === "recorded") return own;
  return textures.get(textureKey(section, chair, "recorded")) ?? [];
};

const cellsOf = (file: Form, first: Section, next: Section) => {
  const of = (source: TextureSource): readonly Id[] => [
    ...new Set(
      [...file.textures].flatMap(([key, changes]) => {
        const [section = "", chair = "", from = ""] = key.split("/");
        return changes.length > 0 && from === source && (section === first.id || section === next.id)
          ? [chair]
          : [];
      }),
    ),
  ];
  return TEXTURE_SOURCES.flatMap((source) =>
    of(source).map((chair) => {
      const [here, there] = [painted(file, first.id, chair, source), painted(file, next.id, chair, source)];
      const changes = joinedChanges({ changes: here, bars: first.bars }, { changes: there, bars: next.bars });
      return { chair, source, changes, lacks: here.length === 0 ? first : there.length === 0 ? next : null };
    }),
  );
};

/** What joining a section with the one that follows comes to; null where none follows. */
export const joinOutcome = (file: Form, section: Id): JoinOutcome | null => {
  const { song, sections } = file;
  const at = sections.findIndex(({ id }) => id === section);
  const [first, next, third] = [sections[at], sections[at + 1], sections[at + 2]];
  if (first === undefined || next === undefined) return null;
  const before = keyIn(file, at);
  const changesKey = next.key !== "" && next.key !== before;
  const handsOn = changesKey && third !== undefined && third.key === "";
  const cells = cellsOf(file, first, next);
  const lacking = new Set(cells.map(({ lacks }) => lacks));
  return {
    first,
    next,
    refusal: refusalOf(first, next, song.metre),
    told: [
      ...tempoTold(first, next, song.tempo),
      ...(changesKey
        ? [
            `The change to ${shown(next.key)} at ${next.name} is lost${handsOn ? `; it is said at ${third.name} instead` : ""}.`,
          ]
        : []),
      ...(lacking.has(first)
        ? [`${first.name} is not painted for every part: there it is taken as ${next.name} begins.`]
        : []),
      ...(lacking.has(next)
        ? [`${next.name} is not painted for every part: there it is taken as ${first.name} ends.`]
        : []),
    ],
    keyGoesTo: handsOn ? { section: third.id, key: next.key } : null,
    cells: cells.map(({ chair, source, changes }) => ({ chair, source, changes })),
  };
};
