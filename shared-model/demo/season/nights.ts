import type { GateName } from "../../board/gate.ts";
import type { DemoEvening, DemoGig, SongCode } from "../demo-data.ts";
import { run, slip } from "./take-of.ts";

/** A gig still to come, and what the leader let pass for it. */
export interface DemoGigAhead extends DemoGig {
  readonly daysAfterFirst: number;
  readonly agreed: {
    readonly blocks?: number[];
    readonly talk?: number;
    readonly call: string;
    readonly start: string;
    readonly dress: string;
    readonly contact: string;
  };
  readonly waivers: readonly { readonly song: SongCode; readonly gate: GateName; readonly note: string }[];
}

/** The two gigs ahead; the second falls two weeks after the first. */
export const GIGS_AHEAD: readonly DemoGigAhead[] = [
  {
    code: "slot",
    name: "25-minute slot",
    place: "Bandstand, Old Tram Depot",
    minutes: 25,
    daysAfterFirst: 0,
    agreed: {
      call: "17:30",
      start: "19:10",
      dress: "black, and something red",
      contact: "Tomasz, on the band's phone",
    },
    songs: ["MD", "TC", "LT", "UT", "WA", "LO"],
    lineUp: {},
    waivers: [],
  },
  {
    code: "dance",
    name: "Net menders' dance, 2 × 45",
    place: "Net Loft Hall",
    minutes: 90,
    daysAfterFirst: 14,
    agreed: {
      blocks: [45, 45],
      talk: 2,
      call: "18:00",
      start: "20:30",
      dress: "dance hall",
      contact: "The caretaker",
    },
    // biome-ignore format: two sets of ten
    songs: [
      "RW", "QP", "TC", "PP", "VB", "BL", "MD", "NW", "KR", "SB",
      "EE", "WA", "LT", "FL", "MM", "CT", "LO", "SK", "UT", "GL",
    ],
    lineUp: {},
    waivers: [{ song: "BL", gate: "debut", note: "They asked for a waltz, and we know this one." }],
  },
];

/** What was played at a gig behind us, and how it went. */
export interface DemoNight {
  readonly gig: DemoGig;
  readonly night: DemoEvening;
}

const night = (gig: Omit<DemoGig, "songs" | "lineUp">, played: DemoEvening): DemoNight => ({
  gig: { ...gig, songs: played.takes.map(({ song }) => song), lineUp: played.deps },
  night: played,
});

/** Seven weeks back with the bass dep, three weeks back with the whole band. */
export const NIGHTS_BEHIND: readonly DemoNight[] = [
  night(
    { code: "lock", name: "Lock keeper's birthday", place: "Boathouse by Lock Nine", minutes: 45 },
    {
      day: -49,
      away: [],
      deps: { Bs: "karim" },
      takes: [
        run("RW", "clean", 133, 136),
        run("TC", "clean", 95, 97),
        run("EE", "clean", 125, 128),
        run("NW", "wobble", 122, 125, slip("NW4", "Bs", 0.5)),
        run("PP", "wobble", 105, 109, slip("PP3", "Bs", 0.5)),
        run("QP", "clean", 145, 149),
        run("UT", "wobble", 172, 180, slip("UT2", "Dr")),
        run("GL", "clean", 66, 65),
      ],
    },
  ),
  night(
    { code: "cellar", name: "Cellar night", place: "Salt cellar under the customs house", minutes: 50 },
    {
      day: -21,
      away: [],
      deps: {},
      takes: [
        run("RW", "clean", 133, 136),
        run("MD", "wobble", 114, 118, slip("MD7", "Gt1", 0.5)),
        run("TC", "clean", 95, 97),
        run("PP", "clean", 104, 107),
        run("NW", "clean", 121, 124),
        run("LT", "clean", 55, 54),
        run("SB", "wobble", 155, 164, slip("SB2", "Dr")),
        run("EE", "clean", 125, 128),
        run("QP", "clean", 145, 148),
        run("UT", "wobble", 172, 181, slip("UT2", "Dr"), slip("UT1", "Gt2")),
        run("GL", "clean", 66, 66),
      ],
    },
  ),
];
