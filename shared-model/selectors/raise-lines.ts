/** What would raise a song most, as lines to read and to open. */
import type { SongFile } from "../board/board.ts";
import type { Named } from "../readiness/gate-answer.ts";
import { cardName, listed, type Names } from "../readiness/names.ts";
import type { Raise } from "../readiness/raise.ts";

export interface RaiseLine {
  readonly key: string;
  readonly do: Raise["action"]["do"];
  /** The action in words. */
  readonly words: string;
  /** What it is about. */
  readonly names: Named;
  /** Exact, 0 to 1. */
  readonly difference: number;
  /** Score on the night after it, 0 to 1. */
  readonly after: number;
}

/** Smallest difference (share) worth a line: less never shows as a point. */
const WORTH = 0.005;

const lineOf = ({ action, difference, after }: Raise, file: SongFile, names: Names): RaiseLine => {
  const song = file.song.id;
  if (action.do === "run") {
    const words = "One clean run of the whole song by everybody who is in";
    return { key: "run", do: "run", words, names: { song }, difference, after };
  }
  if (action.do === "drill") {
    const { card, members } = action;
    const [chair] = card.chairs;
    const words = `Drill ${cardName(file, card)} once, clean: ${listed(members.map(names.member))}`;
    const about = { song, card: card.id, ...(chair === undefined ? {} : { chair }) };
    return { key: `drill ${card.id}`, do: "drill", words, names: about, difference, after };
  }
  const chair = names.chair(action.chair);
  const words =
    action.member === null
      ? `Find somebody for ${chair} who comes with it practised`
      : `Put ${names.member(action.member)} on ${chair}`;
  return {
    key: `seat ${action.chair}`,
    do: "seat",
    words,
    names: { song, chair: action.chair },
    difference,
    after,
  };
};

/**
 * The actions that raise the score by a point or so, biggest first, at most `most`. `raises` is in that order
 * (raiseMost). An empty chair gets one line, its best: people are not ranked against each other.
 */
export const raiseLines = (
  raises: readonly Raise[],
  file: SongFile,
  names: Names,
  most: number,
): readonly RaiseLine[] => {
  const seen = new Set<string>();
  const lines: RaiseLine[] = [];
  for (const raise of raises) {
    if (lines.length === most) break;
    if (raise.difference < WORTH) continue;
    const line = lineOf(raise, file, names);
    if (seen.has(line.key)) continue;
    seen.add(line.key);
    lines.push(line);
  }
  return lines;
};
