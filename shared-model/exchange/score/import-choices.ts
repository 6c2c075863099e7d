/** What somebody takes of a score, and the arguments of `importSong` it comes to. */
import type { Chair, Instrument } from "../../board/band.ts";
import type { CardKind } from "../../board/card.ts";
import type { Grid } from "../../board/grid.ts";
import type { Id } from "../../board/ids.ts";
import type { Stage } from "../../board/song.ts";
import type { TextureChanges } from "../../board/texture.ts";
import type { SongMelody } from "../../board/voice.ts";
import {
  type FoundSong,
  type PlayedChair,
  patternsIn,
  playedChairs,
  presenceIn,
  sungIn,
} from "./found-song.ts";
import { cymbalsOf, type Pattern } from "./pattern-facts.ts";
import type { CymbalWord } from "./percussion.ts";
import type { ScoreSection } from "./section-facts.ts";

/** A detail that the score suggests. */
export interface SuggestedDetail {
  /** Names it among the others. */
  readonly key: string;
  readonly text: string;
  readonly kind: CardKind;
  readonly chair: Id;
  /** Place in the form; null = the whole song. */
  readonly section: number | null;
  readonly grid: Grid | null;
  /** What keeps the time in each section, where it is about that; null = nothing is said of that section. */
  readonly cymbals: readonly (CymbalWord | null)[];
  /** What it rests on, in a few words. */
  readonly because: string;
}

/** Details of one kind that are suggested at most: those for the most bars. */
const SUGGESTED_MAX = 8;

interface Group {
  readonly sections: number[];
  readonly pattern: Pattern;
  alike: number;
  bars: number;
}

/** Sections with the same bar, together; those of the most bars, in the order of the form. */
const grouped = (patterns: readonly (Pattern | null)[]): readonly Group[] => {
  const groups = new Map<string, Group>();
  for (const [section, pattern] of patterns.entries()) {
    if (pattern === null) continue;
    const key = JSON.stringify([pattern.steps, pattern.perBeat, pattern.rows]);
    const group = groups.get(key) ?? { sections: [], pattern, alike: 0, bars: 0 };
    group.sections.push(section);
    group.alike += pattern.alike;
    group.bars += pattern.bars;
    groups.set(key, group);
  }
  return [...groups.values()]
    .sort((a, b) => b.bars - a.bars)
    .slice(0, SUGGESTED_MAX)
    .sort((a, b) => (a.sections[0] ?? 0) - (b.sections[0] ?? 0));
};

const WHAT: Partial<Record<Instrument, { readonly word: string; readonly kind: CardKind }>> = {
  drums: { word: "Groove", kind: "groove" },
  bass: { word: "Bass pattern", kind: "pattern" },
};

const patternDetails = (
  found: FoundSong,
  played: PlayedChair,
  instrument: Instrument,
  kick: { readonly chair: Id; readonly patterns: readonly (Pattern | null)[] } | null,
): readonly SuggestedDetail[] => {
  const what = WHAT[instrument];
  if (what === undefined) return [];
  const { form } = found.song;
  const patterns = patternsIn(found, played);
  const playing = patterns.filter((pattern) => pattern !== null).length;
  return grouped(patterns).map(({ sections, pattern, alike, bars }) => {
    const whole = sections.length === playing;
    const first = sections[0] ?? 0;
    const under = kick?.patterns[first];
    const foot = under?.rows.find(({ voice }) => voice === "kick");
    const matches = foot && under?.steps === pattern.steps && under.perBeat === pattern.perBeat;
    const { chair } = played;
    return {
      key: `${what.kind}/${chair}/${first}`,
      text: `${what.word} ${whole ? "all through" : `in ${sections.map((at) => form[at]?.name).join(", ")}`}`,
      kind: what.kind,
      chair,
      section: whole ? null : first,
      grid: {
        steps: pattern.steps,
        perBeat: pattern.perBeat,
        rows: [
          ...pattern.rows.map(({ voice, hits }) =>
            voice === null ? { chair, hits } : { chair, voice, hits },
          ),
          ...(matches && kick !== null && kick.chair !== chair
            ? [{ chair: kick.chair, voice: "kick" as const, hits: foot.hits }]
            : []),
        ],
      },
      cymbals: [],
      because: `exactly so in ${alike} of ${bars} ${bars === 1 ? "bar" : "bars"}`,
    };
  });
};

/** Details by chair, for the parts that were given to chairs of drums and bass. */
export const suggestDetails = (
  found: FoundSong,
  assigned: readonly (Id | null)[],
  chairs: readonly Pick<Chair, "id" | "instrument">[],
): readonly SuggestedDetail[] => {
  const instrumentOf = (chair: Id): Instrument =>
    chairs.find(({ id }) => id === chair)?.instrument ?? "other";
  const played = playedChairs(found.facts, assigned);
  const kit = played.find(({ chair, part }) => part.percussion && instrumentOf(chair) === "drums");
  const kick = kit ? { chair: kit.chair, patterns: patternsIn(found, kit) } : null;
  return [
    ...played.flatMap((one) => patternDetails(found, one, instrumentOf(one.chair), kick)),
    ...(kit === undefined ? [] : cymbalDetails(found, kit)),
  ];
};

/** What keeps the time in each section, and how many crashes there are. */
const cymbalDetails = ({ song, crashes }: FoundSong, kit: PlayedChair): readonly SuggestedDetail[] => {
  const cymbals = cymbalsOf(song.form, kit.part);
  const struck = crashes.flatMap((count, i) => (count > 0 ? [`${song.form[i]?.name} ${count}`] : []));
  const kept = [...new Set(cymbals)].flatMap((word) => {
    const names = song.form.filter((_, i) => cymbals[i] === word).map(({ name }) => name);
    return word === null ? [] : [`${word === "none" ? "no cymbals" : word} in ${names.join(", ")}`];
  });
  if (struck.length === 0 && cymbals.every((word) => word === null || word === "none")) return [];
  return [
    {
      key: `cymbals/${kit.chair}`,
      text: struck.length === 0 ? "Cymbals by section" : `Cymbals by section; crashes: ${struck.join(", ")}`,
      kind: "cymbals",
      chair: kit.chair,
      section: null,
      grid: null,
      cymbals,
      because: kept.join("; "),
    },
  ];
};

/** What is taken. */
export interface ImportChoices {
  readonly title: string;
  readonly stage: Stage;
  /** For each part its chair; null = it is left out. */
  readonly chairs: readonly (Id | null)[];
  /** Tempo, key, metre and length, of the song and of each section that has its own. */
  readonly song: boolean;
  readonly form: boolean;
  /** Who plays when; only with the form. */
  readonly textures: boolean;
  /** Notes and how long they are sung. */
  readonly melody: boolean;
  /** Keys of suggested details. */
  readonly details: ReadonlySet<string>;
}

/** What the lead voice sings; null where no part was given to one. */
export const melodyOf = (
  found: FoundSong,
  assigned: readonly (Id | null)[],
  chairs: readonly Pick<Chair, "id" | "instrument">[],
): SongMelody | null => {
  const sings = chairs.filter(({ instrument }) => instrument === "lead voice").map(({ id }) => id);
  const sung = playedChairs(found.facts, assigned).find(({ chair }) => sings.includes(chair));
  const times = sung ? sungIn(sung) : null;
  return times === null ? null : { key: found.song.key, ...times };
};

/** What a section has of its own. */
const ownOf = ({ metre, tempo, key }: ScoreSection, usual: string) => ({
  ...(metre === usual ? {} : { metre }),
  ...(tempo === null ? {} : { tempo }),
  ...(key === "" ? {} : { key }),
});

/** Arguments of `importSong`. What a file does not say stays not settled. */
export const importArgs = (
  found: FoundSong,
  choices: ImportChoices,
  chairs: readonly Pick<Chair, "id" | "instrument">[],
) => {
  const { song } = found;
  const melody = choices.melody ? melodyOf(found, choices.chairs, chairs) : null;
  const sections = choices.form
    ? song.form.map((section) => ({
        name: section.name,
        bars: section.bars,
        ...(choices.song ? ownOf(section, song.metre) : {}),
      }))
    : [];
  const said = choices.song
    ? { key: song.key, recordKey: song.key, tempo: song.tempo, metre: song.metre, length: song.length }
    : {};
  const textures =
    choices.form && choices.textures
      ? playedChairs(found.facts, choices.chairs).flatMap((played) =>
          presenceIn(found, played).map((changes: TextureChanges, section) => ({
            section,
            chair: played.chair,
            changes: changes.map((change) => ({ ...change })),
          })),
        )
      : [];
  const details = suggestDetails(found, choices.chairs, chairs)
    .filter(({ key }) => choices.details.has(key))
    .map(({ text, chair, kind, section, grid, cymbals }) => ({
      text,
      chairs: [chair],
      kind,
      section: choices.form ? section : null,
      cymbals: choices.form
        ? cymbals.flatMap((word, at) => (word === null ? [] : [{ section: at, word }]))
        : [],
      grid: grid === null ? null : { ...grid, rows: grid.rows.map((row) => ({ ...row })) },
    }));
  return {
    song: { title: choices.title, stage: choices.stage, ...said, ...(melody === null ? {} : { melody }) },
    sections,
    textures,
    details,
  };
};
