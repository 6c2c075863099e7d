/** The takes of one song on one evening, told together: how they went and what slipped, the member's own first. */
import type { SongFile } from "../../board/board.ts";
import { dayWords } from "../../lib/day-words.ts";
import { cardName, listed, namesOf } from "../../readiness/names.ts";
import { takeDay } from "../take-reading.ts";
import type { Change } from "./changes.ts";
import type { FactValue } from "./fact.ts";
import type { Line } from "./item.ts";
import type { Telling, Told } from "./item-words.ts";

const text = (value: FactValue | undefined, entry: string): string => String(value?.[entry] ?? "");

interface Slipped {
  readonly about: string;
  readonly mine: boolean;
  readonly must: boolean;
}

const slipsIn = (change: Change, file: SongFile | undefined, telling: Telling): readonly Slipped[] => {
  const slips = change.after?.slips;
  if (!Array.isArray(slips)) return [];
  const names = namesOf(telling.board);
  const mine = file === undefined ? [] : telling.chairsIn(file);
  return slips.map((slip: unknown) => {
    const { chair, card: id } = Object(slip) as { chair?: string; card?: string };
    const card = file?.cards.find((candidate) => candidate.id === id);
    const isMine = chair ? mine.includes(chair) : (card?.chairs.some((seat) => mine.includes(seat)) ?? false);
    const said = file !== undefined && card !== undefined ? cardName(file, card) : "";
    const whose = chair && !isMine ? names.chair(chair) : "";
    const about =
      said !== "" ? (whose === "" ? said : `${said} (${whose})`) : whose || "nobody's in particular";
    return { about, mine: isMine, must: isMine && card?.weight === "must" };
  });
};

const times = (n: number): string => (n === 1 ? "" : ` ${n} times`);

/** `2 runs: clean, wobble`. */
const howItWent = (changes: readonly Change[]): string => {
  const kinds = new Map<string, string[]>();
  for (const { after } of changes)
    kinds.set(text(after, "kind"), [...(kinds.get(text(after, "kind")) ?? []), text(after, "feel")]);
  return [...kinds]
    .map(([kind, feels]) => `${feels.length === 1 ? kind : `${feels.length} ${kind}s`}: ${feels.join(", ")}`)
    .join("; ");
};

/** Which takes are told together. */
export const eveningOf = (change: Change): string => {
  const value = change.after ?? change.before;
  return `takes:${text(value, "occasion")}/${text(value, "song")}`;
};

export const tellTakes = (changes: readonly Change[], telling: Telling): Told => {
  const { board, today } = telling;
  const value = changes[0]?.after ?? changes[0]?.before;
  const file = board.songs.get(text(value, "song"));
  const played = changes.filter(({ after }) => after !== undefined);
  const gone = changes.length - played.length;
  const slips = played.flatMap((change) => slipsIn(change, file, telling));
  const line = (what: string, mine: boolean): readonly Line[] => {
    const counts = new Map<string, number>();
    for (const slip of slips)
      if (slip.mine === mine) counts.set(slip.about, (counts.get(slip.about) ?? 0) + 1);
    const said = [...counts].map(([about, n]) => `${about}${times(n)}`);
    return said.length === 0 ? [] : [{ what, before: null, after: listed(said) }];
  };
  const moments = changes.flatMap(
    ({ id }) => file?.takes.filter((take) => take.id === id).map(({ at }) => at) ?? [],
  );
  const at = moments.length === 0 ? null : Math.max(...moments);
  const day = takeDay(
    { occasion: text(value, "occasion"), at: at ?? telling.since },
    { gigs: board.gigs, timeZone: board.band.timeZone },
  );
  const loggers = new Set(changes.flatMap(({ id }) => file?.takes.find((take) => take.id === id)?.by ?? []));
  const mine = slips.some((slip) => slip.mine);
  return {
    group: "log",
    rank: slips.some(({ must }) => must) ? 78 : mine ? 66 : slips.length > 0 ? 22 : 16,
    title: `${file?.song.title ?? "A song that is off the board"} · ${dayWords(day, { weekday: true, today })}`,
    fate: [howItWent(played), gone === 0 ? "" : `${gone} withdrawn`].filter((part) => part !== "").join("; "),
    lines: [...line("You slipped", true), ...line("Slipped", false)],
    why: "",
    who: loggers.size === 0 ? "" : `logged by ${listed([...loggers].sort().map(namesOf(board).member))}`,
    note: "",
    at,
    song: file?.song.id ?? null,
    chair: null,
    card: null,
    gig: null,
    question: null,
    ruling: null,
    take: played.at(-1)?.id ?? null,
  };
};
