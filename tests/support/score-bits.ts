import type { SongScore, UnitScore } from "#shared/readiness/song-score.ts";

/** Every number of a score by name, so that two scores can be compared to the last bit. */
export const scoreBits = (score: SongScore): ReadonlyMap<string, number> => {
  const bits = new Map<string, number>([
    ["score", score.score],
    ["logShare", score.logShare],
    ["trouble", score.trouble],
    ...named("split", score.split),
  ]);
  for (const one of [...score.units, ...score.covers]) {
    for (const [name, value] of unitBits(one)) bits.set(`${unitName(one)} ${name}`, value);
  }
  return bits;
};

/** A name for a unit that does not depend on where it stands. */
export const unitName = ({ unit }: UnitScore): string =>
  `${unit.of}/${unit.chair}/${unit.card?.id ?? ""}/${unit.member}`;

const named = (of: string, record: object): [string, number][] =>
  Object.entries(record).map(([name, value]) => [`${of}.${name}`, value]);

const unitBits = (one: UnitScore): [string, number][] => [
  ["share", one.unit.share],
  ["since", one.unit.since],
  ["r", one.r],
  ["ownR", one.ownR],
  ["contribution", one.contribution],
  ["level", one.status?.level ?? -1],
  ...named("split", one.split),
  ...named("own", one.own ?? {}),
  ["lit", one.evidence.lit],
  ["litTogether", one.evidence.litTogether],
  ["lastClean", one.evidence.lastClean],
  ["events", one.evidence.events().length],
];

/** Names of the numbers that differ by even one bit, and of units only one of the two has. */
export const differingBits = (a: SongScore, b: SongScore): readonly string[] => {
  if (sameBits(a, b)) return [];
  const [left, right] = [scoreBits(a), scoreBits(b)];
  return [...new Set([...left.keys(), ...right.keys()])].filter(
    (name) => !Object.is(left.get(name), right.get(name)),
  );
};

/** The same question without names, because it is asked a hundred thousand times and the answer is nearly always yes. */
const sameBits = (a: SongScore, b: SongScore): boolean => {
  const [left, right] = [unitsOf(a), unitsOf(b)];
  return (
    sameNumbers([a.score, a.logShare, a.trouble], [b.score, b.logShare, b.trouble]) &&
    sameNumbers(Object.values(a.split), Object.values(b.split)) &&
    left.length === right.length &&
    left.every((one, i) => {
      const other = right[i];
      return other !== undefined && (one === other || sameUnit(one, other));
    })
  );
};

const unitsOf = (score: SongScore): readonly UnitScore[] => [...score.units, ...score.covers];

const sameUnit = (a: UnitScore, b: UnitScore): boolean =>
  a.unit.statusId === b.unit.statusId &&
  a.unit.chair === b.unit.chair &&
  a.unit.member === b.unit.member &&
  sameNumbers(
    unitBits(a).map(([, value]) => value),
    unitBits(b).map(([, value]) => value),
  );

const sameNumbers = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every((value, i) => Object.is(value, b[i]));
