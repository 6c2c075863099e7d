/**
 * What a band looks after before a night, as a list to tick: worked out from the songs that are called, then what holds
 * for every stage. It reminds; what is to be done is for local rules and a competent person to say.
 */
import type { Gig } from "../board/band.ts";
import type { Board } from "../board/board.ts";
import { castingOf, lineUpFor } from "../board/line-up.ts";
import { orderOf } from "./running-order.ts";

export interface LoadInLine {
  /** Stays the same while the line says the same. */
  readonly id: string;
  readonly text: string;
}

export interface LoadInGroup {
  readonly title: string;
  readonly lines: readonly LoadInLine[];
}

/** Said wherever the list stands, on the screen and on paper. */
export const LOAD_IN_CAUTION =
  "This list only reminds. The house's and the local rules come first, and about electricity a competent person decides.";

/** Common practice on small stages, no published source. */
const EVERY_STAGE: readonly LoadInLine[] = [
  { id: "leads", text: "Leads and plugs looked at and tested, damaged ones taken out" },
  { id: "rcd", text: "Residual-current protection in the supply, tested by whoever is responsible for it" },
  { id: "earth", text: "No earth lifted anywhere, also not against hum" },
  { id: "liquids", text: "No liquids near power" },
  { id: "walkway", text: "No charging lead, and no other lead, across a walkway" },
  { id: "plugs", text: "Ear plugs for everybody" },
];

/** Spares by instrument. Common practice, no published source. */
const SPARES: Readonly<Record<string, readonly string[]>> = {
  guitar: ["Spare strings, picks, a capo", "Battery or supply for the pedals"],
  bass: ["Spare bass strings"],
  drums: ["Spare sticks", "Spare beater, hat clutch, a drum key"],
  keys: ["Spare supply and sustain pedal"],
  "lead voice": ["Spare microphone and lead", "Water, away from power"],
};

interface Played {
  readonly title: string;
  readonly tuning: string;
  readonly capo: number;
  readonly rig: string;
}

const line = (text: string): LoadInLine => ({ id: text.toLowerCase(), text });

const playedOf = (board: Pick<Board, "songs" | "band">, gig: Gig): readonly Played[] => {
  const entries = new Map(gig.songs.map((entry) => [entry.song, entry]));
  return orderOf(gig)
    .flat()
    .flatMap((id) => {
      const song = board.songs.get(id)?.song;
      if (song === undefined) return [];
      const tuning = entries.get(id)?.tuning ?? (song.tuning || board.band.tuning);
      return [{ title: song.title, tuning, capo: song.capo, rig: song.rig.trim() }];
    });
};

/** Every change of tuning in the order of the night, the first song's to begin with. */
const tuningLines = (songs: readonly Played[]): readonly LoadInLine[] =>
  songs.flatMap(({ title, tuning }, i) => {
    const before = songs[i - 1];
    if (before === undefined) return [line(`To begin with: ${tuning}, for ${title}`)];
    return before.tuning === tuning ? [] : [line(`After ${before.title}: ${tuning}, for ${title}`)];
  });

/** How many instruments would spare the retuning: one for each tuning. */
const tunedSpares = (songs: readonly Played[]): readonly LoadInLine[] => {
  const tunings = [...new Set(songs.map(({ tuning }) => tuning))];
  return tunings.length < 2 ? [] : [line(`Tuned and at hand: ${tunings.join(", ")}`)];
};

const listed = (songs: readonly Played[], what: (song: Played) => string): readonly LoadInLine[] =>
  [...new Set(songs.map(what))]
    .filter((said) => said !== "")
    .map((said) => {
      const those = songs.filter((song) => what(song) === said);
      return line(`${said}: ${those.map(({ title }) => title).join(", ")}`);
    });

/** The instruments somebody plays that night, each once, in column order. */
const instrumentsOf = (board: Pick<Board, "songs" | "chairs" | "people">, gig: Gig): readonly string[] => {
  const files = gig.songs.flatMap(({ song }) => board.songs.get(song) ?? []);
  const sat = board.chairs.filter(({ id }) =>
    files.some((file) => castingOf(file, id).plays && (lineUpFor(board, file, gig).get(id) ?? null) !== null),
  );
  return [...new Set(sat.map(({ instrument }) => instrument))];
};

/** The list for one night; groups without a line are left out. Null when the gig is not on the board. */
export const loadIn = (
  board: Pick<Board, "songs" | "chairs" | "people" | "band" | "gigs">,
  gigId: string,
): readonly LoadInGroup[] | null => {
  const gig = board.gigs.find(({ id }) => id === gigId);
  if (gig === undefined) return null;
  const songs = playedOf(board, gig);
  const instruments = instrumentsOf(board, gig);
  const strings = instruments.includes("guitar") || instruments.includes("bass");
  const groups: readonly LoadInGroup[] = [
    {
      title: "Tunings, in the order of the night",
      lines: strings ? [...tuningLines(songs), ...tunedSpares(songs)] : [],
    },
    {
      title: "Capos",
      lines: instruments.includes("guitar")
        ? listed(songs, ({ capo }) => (capo > 0 ? `Capo ${capo}` : ""))
        : [],
    },
    { title: "Changes of instrument", lines: listed(songs, ({ rig }) => rig) },
    { title: "Spares", lines: instruments.flatMap((instrument) => (SPARES[instrument] ?? []).map(line)) },
    { title: "Every stage", lines: EVERY_STAGE },
  ];
  return groups.filter(({ lines }) => lines.length > 0);
};
