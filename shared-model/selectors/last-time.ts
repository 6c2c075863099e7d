/** What slipped the last time a song was played, as a player wants to know it before the count-in. */
import type { Id } from "../board/ids.ts";
import type { Take } from "../board/take.ts";
import { readTake, type SlipReading, type TakeContext, type TakeReading } from "./take-reading.ts";

export interface LastTime {
  readonly take: Take;
  readonly reading: TakeReading;
  /** One's own first, then the worst; at most as many as asked for. */
  readonly slips: readonly SlipReading[];
  /** How many more there were. */
  readonly more: number;
}

/** Reads the last time the band played it: the latest run, gig or drill; null = never. `chairs` = one's own. */
export const lastTime = (context: TakeContext, chairs: ReadonlySet<Id>, most: number): LastTime | null => {
  const take = context.file.takes.findLast(({ kind }) => kind !== "solo");
  if (take === undefined) return null;
  const cards = new Map(context.file.cards.map((card) => [card.id, card.chairs]));
  const isMine = ({ chair, card }: Take["slips"][number]): boolean =>
    chair === null
      ? card !== null && (cards.get(card) ?? []).some((id) => chairs.has(id))
      : chairs.has(chair);
  const read = (slips: Take["slips"]) => readTake({ ...take, slips }, context).slips;
  const slips = [...read(take.slips.filter(isMine)), ...read(take.slips.filter((slip) => !isMine(slip)))];
  return {
    take,
    reading: readTake(take, context),
    slips: slips.slice(0, most),
    more: Math.max(0, slips.length - most),
  };
};
