/** What is written of one section and one chair, bar by bar and pass by pass. */
import type { Presence, TextureChange, TextureChanges } from "../board/texture.ts";

/**
 * How a chair plays in a bar of a pass, both from 1. What is said of that pass holds from its bar on, over what is said of
 * every pass; before the first word the chair rests. Null = nothing is said at all.
 */
export const presenceAt = (changes: TextureChanges, bar: number, pass: number): Presence | null => {
  if (changes.length === 0) return null;
  const last = (of: number | null): TextureChange | undefined =>
    changes
      .filter((change) => change.pass === of && change.bar <= bar)
      .reduce<TextureChange | undefined>((a, b) => (a === undefined || b.bar >= a.bar ? b : a), undefined);
  return (last(pass) ?? last(null))?.presence ?? "rest";
};

/** Bars in a row that a chair plays alike. */
export interface Stretch {
  readonly bar: number;
  readonly bars: number;
  readonly presence: Presence;
}

/** A pass of a section as stretches that fill it; none when nothing is said. */
export const stretchesOf = (changes: TextureChanges, bars: number, pass: number): readonly Stretch[] => {
  const found: Stretch[] = [];
  for (let bar = 1; bar <= bars; bar += 1) {
    const presence = presenceAt(changes, bar, pass);
    const last = found.at(-1);
    if (presence === null) continue;
    if (last?.presence === presence) found[found.length - 1] = { ...last, bars: last.bars + 1 };
    else found.push({ bar, bars: 1, presence });
  }
  return found;
};

/** A pass that no word is about: what holds every time. */
export const EVERY_PASS = 0;

/** Passes that something of their own is said about, ascending. */
export const ownPasses = (changes: TextureChanges): readonly number[] =>
  [...new Set(changes.flatMap(({ pass }) => (pass === null ? [] : [pass])))].sort((a, b) => a - b);

/** The whole section in one presence; null = nothing is said any more. */
export const wholeSection = (presence: Presence | null): TextureChanges =>
  presence === null ? [] : [{ bar: 1, pass: null, presence }];

const isSamePlace = (a: TextureChange, b: TextureChange): boolean => a.bar === b.bar && a.pass === b.pass;

/** The changes with one more; it takes the place of what began there. */
export const withChange = (changes: TextureChanges, change: TextureChange): TextureChanges =>
  [...changes.filter((one) => !isSamePlace(one, change)), change].sort(
    (a, b) => (a.pass ?? 0) - (b.pass ?? 0) || a.bar - b.bar,
  );

export const withoutChange = (changes: TextureChanges, change: TextureChange): TextureChanges =>
  changes.filter((one) => !isSamePlace(one, change));

/** True when both read alike in every bar of every pass. */
export const soundsAlike = (a: TextureChanges, b: TextureChanges, bars: number): boolean =>
  [EVERY_PASS, ...ownPasses(a), ...ownPasses(b)].every((pass) =>
    Array.from({ length: bars }, (_, i) => i + 1).every(
      (bar) => presenceAt(a, bar, pass) === presenceAt(b, bar, pass),
    ),
  );

/** So many bars as changes: the word of every pass first, then of each of `passes`, each where it becomes another one. */
const asChanges = (
  bars: number,
  passes: readonly number[],
  presenceOf: (bar: number, pass: number) => Presence,
): TextureChanges =>
  [null, ...passes].flatMap((pass) => {
    let last: Presence | null = null;
    return Array.from({ length: bars }, (_, i) => i + 1).flatMap((bar) => {
      const presence = presenceOf(bar, pass ?? EVERY_PASS);
      if (presence === last) return [];
      last = presence;
      return [{ bar, pass, presence }];
    });
  });

/** What is said of the bars from one on, as a section of its own with so many bars. Empty where nothing is said. */
export const changesFrom = (changes: TextureChanges, from: number, bars: number): TextureChanges =>
  changes.length === 0
    ? []
    : asChanges(bars, ownPasses(changes), (bar, pass) => presenceAt(changes, from + bar - 1, pass) ?? "rest");

/** What is said of a section, and its bars. */
export interface SaidOf {
  readonly changes: TextureChanges;
  readonly bars: number;
}

/**
 * Two sections in a row as one. Where nothing is said of one of them, it goes on as the other begins or ends: taking it for
 * rest would make a lift of what nobody has listened to. Empty where nothing is said of either.
 */
export const joinedChanges = (first: SaidOf, next: SaidOf): TextureChanges => {
  if (first.changes.length === 0 && next.changes.length === 0) return [];
  const passes = ownPasses([...first.changes, ...next.changes]);
  return asChanges(first.bars + next.bars, passes, (bar, pass) => {
    const behind = bar - first.bars;
    const [here, there] = [
      presenceAt(first.changes, Math.min(bar, first.bars), pass),
      presenceAt(next.changes, Math.max(behind, 1), pass),
    ];
    return (behind < 1 ? (here ?? there) : (there ?? here)) ?? "rest";
  });
};
