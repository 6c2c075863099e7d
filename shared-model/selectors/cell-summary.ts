/** A part as one cell of the board shows it: heads, musts first, and a word or two under them. */
import type { Chair } from "../board/band.ts";
import { LEVEL_WORDS, type Level } from "../board/status.ts";
import type { DetailLine, PartView, Standing } from "./part-view.ts";

export interface CellHead {
  readonly level: Level;
  /** Musts are large and come first. */
  readonly large: boolean;
  readonly slipped: boolean;
  readonly waiting: boolean;
}

export interface CellSummary {
  readonly state: PartView["state"];
  /** Musts, then lifts; without either, the part itself where its player said something about it. */
  readonly heads: readonly CellHead[];
  /** Details without a head: polish, and what is more than the cell holds. */
  readonly beyond: number;
  /** What the player most needs to know, in at most four words; empty for a tacet part. */
  readonly word: string;
  /** The bar read aloud before the word; empty where the word says it all. */
  readonly label: string;
}

const headOf = ({ level, slipped, waiting }: Standing, large: boolean): CellHead => ({
  level,
  large,
  slipped,
  waiting,
});

/** The standing of this part's own player. */
const own = ({ standings }: DetailLine): Standing | undefined => standings[0];

/**
 * Sums a part up. `most` is the number of heads a cell holds (Settings.cardsShown); `chairs` names the partners a
 * shared detail waits for.
 */
export const cellSummary = (part: PartView, most: number, chairs: readonly Chair[]): CellSummary => {
  const weighty = part.details.filter(({ card }) => card.weight !== "polish");
  const heads = weighty.length > 0 ? weighty.flatMap(headOfLine).slice(0, most) : headOfPart(part);
  const word = wordOf(part, chairs);
  return {
    state: part.state,
    heads: part.state === "tacet" ? [] : heads,
    beyond: part.details.length - (weighty.length > 0 ? heads.length : 0),
    word,
    label: labelOf(part),
  };
};

const headOfLine = (line: DetailLine): readonly CellHead[] => {
  const standing = own(line);
  return standing === undefined ? [] : [headOf(standing, line.card.weight === "must")];
};

const headOfPart = ({ itself, member }: PartView): readonly CellHead[] =>
  itself === null || member === null || itself.level === 0 ? [] : [headOf(itself, false)];

const wordOf = (part: PartView, chairs: readonly Chair[]): string => {
  if (part.state === "tacet") return "";
  if (part.state === "uncovered") return "nobody on it";
  if (part.state === "unknown") return "not said yet";
  const mine = part.details.flatMap((line) => own(line) ?? []);
  const slips = [...mine, ...(part.itself === null ? [] : [part.itself])].filter(({ slipped }) => slipped);
  if (slips.length > 0) return slips.length === 1 ? "slipped" : `${slips.length} slipped`;
  const waiting = part.details.filter((line) => own(line)?.waiting);
  return waiting.length > 0 ? waitingWord(waiting, chairs) : mustWord(part);
};

/** Names the chair it waits for where that is one. */
const waitingWord = (waiting: readonly DetailLine[], chairs: readonly Chair[]): string => {
  const partners = new Set(
    waiting.flatMap(({ standings: [mine, ...others] }) => {
      const reason = mine?.effective?.reason;
      const missing = reason?.is === "needs a run together" ? reason.missing : [];
      return others
        .filter(({ member }) => member === null || missing.includes(member))
        .map(({ chair }) => chair);
    }),
  );
  const [only] = partners;
  const chair = partners.size === 1 ? chairs.find(({ id }) => id === only) : undefined;
  return chair === undefined ? "waits for a run" : `waits for ${chair.short}`;
};

const mustWord = ({ details, itself, state }: PartView): string => {
  const musts = details.filter(({ card }) => card.weight === "must").flatMap((line) => own(line) ?? []);
  const [first] = musts;
  if (first === undefined) {
    if (state === "nothing special") return "nothing special";
    return details.length > 0 ? "no must yet" : `part ${LEVEL_WORDS[itself?.level ?? 0]}`;
  }
  const locked = musts.filter(({ level }) => level === 3).length;
  if (locked === musts.length) return "locked in";
  return musts.length === 1 ? LEVEL_WORDS[first.level] : `${locked} of ${musts.length} locked in`;
};

const standingWords = (standing: Standing): string => {
  const marks = [standing.slipped ? "slipped" : "", standing.waiting ? "waiting" : ""].filter(Boolean);
  return `${LEVEL_WORDS[standing.level]}${marks.length > 0 ? ` (${marks.join(", ")})` : ""}`;
};

const labelOf = (part: PartView): string => {
  if (part.state === "tacet") return "nothing to play";
  const of = (weight: "must" | "lift" | "polish"): string => {
    const lines = part.details
      .filter(({ card }) => card.weight === weight)
      .flatMap((line) => own(line) ?? []);
    if (lines.length === 0) return "";
    if (weight === "polish") return `${lines.length} polish`;
    const name = lines.length === 1 ? weight : `${weight}s`;
    return `${lines.length} ${name}: ${lines.map(standingWords).join(", ")}`;
  };
  return [of("must"), of("lift"), of("polish")].filter((words) => words !== "").join("; ");
};

/** True when both cells look and read the same. */
export const sameCell = (a: CellSummary, b: CellSummary): boolean =>
  a.state === b.state &&
  a.beyond === b.beyond &&
  a.word === b.word &&
  a.label === b.label &&
  a.heads.length === b.heads.length &&
  a.heads.every((head, i) => {
    const other = b.heads[i];
    return (
      other !== undefined &&
      head.level === other.level &&
      head.large === other.large &&
      head.slipped === other.slipped &&
      head.waiting === other.waiting
    );
  });
