/** What one could ask about who plays when, each with a part that could wait. */
import type { Id } from "../../board/ids.ts";
import { couldWait, energyOf, type Hint, hintsOf, type Texture } from "../../music/texture.ts";
import type { Energy } from "./energy.ts";
import { outOf100 } from "./energy-words.ts";
import type { Picture } from "./picture.ts";

export interface TextureHint {
  /** Stable for the song; what is dismissed. */
  readonly id: string;
  readonly sentence: string;
  /** A part that could wait, and the sentence that says so; null = everybody is needed. */
  readonly remedy: { readonly chair: Id; readonly sentence: string } | null;
}

const CHORUS = /chorus|refrain|^ch\.?\s*\d*$|^c\s*\d+$/i;

export const isChorus = (name: string): boolean => CHORUS.test(name.trim().replace(/\s*\(\d+\)$/, ""));

interface Question {
  readonly id: string;
  readonly sentence: string;
  /** The part could wait in `quiet`, to come in with `loud`. */
  readonly quiet: number;
  readonly loud: number;
  readonly remedy: (chair: string) => string;
}

const question = (hint: Hint, { sections }: Picture, texture: Texture): Question => {
  const name = (at: number): string => sections[at]?.name ?? "";
  const id = (at: number): string => sections[at]?.id ?? "";
  const until = (loud: number) => (chair: string) => `${chair} could wait until ${name(loud)}.`;
  switch (hint.of) {
    case "no lift":
      return {
        id: `no-lift:${id(hint.section)}`,
        sentence: `${name(hint.section)} comes in hardly bigger than ${name(hint.section - 1)}.`,
        quiet: hint.section - 1,
        loud: hint.section,
        remedy: until(hint.section),
      };
    case "one level":
      return {
        id: `one-level:${id(hint.from)}`,
        sentence: `From ${name(hint.from)} to ${name(hint.to)} everything stays on one level.`,
        quiet: hint.to - 1,
        loud: hint.to,
        remedy: until(hint.to),
      };
    case "all in":
      return {
        id: "all-in",
        sentence: `In ${name(0)} everybody gives the most they give anywhere.`,
        quiet: 0,
        loud: 1,
        remedy: until(1),
      };
    case "last chorus":
      return {
        id: `last-chorus:${id(hint.section)}`,
        sentence: `${name(hint.section)} is smaller than ${name(hint.bigger)}.`,
        quiet: hint.bigger,
        loud: hint.section,
        remedy: (chair) =>
          `${chair} could rest in ${name(hint.bigger)} and come in with ${name(hint.section)}.`,
      };
    case "narrow": {
      const energy = texture.sections.map((levels) => energyOf(texture.weights, levels));
      const [least, most] = [Math.min(...energy), Math.max(...energy)];
      const [quiet, loud] = [energy.indexOf(least), energy.indexOf(most)];
      return {
        id: "narrow",
        sentence: `From the smallest section to the biggest there are only ${outOf100(most - least)} of 100.`,
        quiet,
        loud,
        remedy: (chair) => `${chair} could rest in ${name(quiet)}.`,
      };
    }
  }
};

/** The hints of a picture that is painted whole; none before. `dismissed`: ids that are not asked of this song. */
export const textureHints = (
  picture: Picture,
  { texture, counted }: Energy,
  dismissed: ReadonlySet<string>,
): readonly TextureHint[] => {
  if (texture === null) return [];
  const choruses = picture.sections.flatMap(({ name }, i) => (isChorus(name) ? [i] : []));
  return hintsOf(texture, choruses)
    .map((hint) => question(hint, picture, texture))
    .filter(({ id }) => !dismissed.has(id))
    .map(({ id, sentence, quiet, loud, remedy }) => {
      const pair = [texture.sections[quiet] ?? [], texture.sections[loud] ?? []];
      const waits = couldWait({ weights: texture.weights, sections: pair }, 1);
      const part = waits === null ? undefined : picture.parts[counted[waits] ?? -1];
      return {
        id,
        sentence,
        remedy: part === undefined ? null : { chair: part.chair, sentence: remedy(part.name) },
      };
    });
};
