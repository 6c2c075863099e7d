import type { DemoDetails } from "../demo-data.ts";
import { card } from "./card-of.ts";

/** Songs being learned, candidates, and what is left of the resting ones. */
// biome-ignore format: a card is read in two lines
export const OTHER_DETAILS: readonly DemoDetails[] = [
  {
    song: "KR", written: -46, confirmed: -17,
    parts: { Gt1: 2, Bs: 2, Dr: 3, Ky: 2, Vx: 3 },
    cards: [
      card("KR1", ["must", "groove"], "V1-Ch3", { Dr: 3, Bs: 2 },
        "Rim pattern over two bars, bass on 1 and the 2-and, never on 3", "the kettle does not boil over"),
      card("KR2", ["lift", "register"], "Ch1-Ch3", { Ky: 2, Gt1: 2 },
        "Keys above middle C, guitar below it, nylon-like sound", "two hands, one instrument"),
      card("KR3", ["must", "vocal entry"], "V1 b1 beat 3", { Vx: 3 },
        "In on beat 3, unhurried; line 2, last word is held", "band does not wait for it"),
      card("KR4", ["lift", "rest"], "Solo b1-b8", { Dr: 2 },
        "No snare at all, rim only", "the room gets smaller"),
      card("KR5", ["must", "general"], "Outro", {},
        "The record fades: we need an ending before anybody can own it", ""),
    ],
  },
  {
    song: "MM", written: -44, confirmed: -24,
    parts: { Gt1: 2, Gt2: 1, Bs: 2, Dr: 2, Ky: 2, Vx: 3 },
    cards: [
      card("MM1", ["must", "ending"], "Outro b7-8", { Gt1: 1, Gt2: 1, Bs: 2, Dr: 2, Ky: 2 },
        "Pulse stops, everybody holds, keys let go last", "one long exhale"),
      card("MM2", ["must", "count-in"], "Intro b1", { Ky: 2, Dr: 2 },
        "Keys' pulse is the count; drums look, not listen", "drums land inside the pulse"),
      card("MM3", ["lift", "pattern"], "V1-V2", { Bs: 2 },
        "Straight eighths with a pick, no slides, mute with the palm", "a rail, not a rope"),
      card("MM4", ["lift", "tone"], "Break", { Gt2: 1 },
        "Long echo, dotted eighth, three repeats, volume swell", "the train is late and beautiful"),
      card("MM5", ["lift", "vocal entry"], "Ch3 b17", { Vx: 2 },
        "Wait one bar too long, then come in on the last line", "the delay is a joke they get"),
      card("MM6", ["polish", "general"], "Pre1", {},
        "A bell on the left, once per line, pitch unknown", ""),
    ],
  },
  {
    song: "SK", written: -30, confirmed: -17,
    parts: { Gt1: 2, Gt2: 1, Bs: 2, Dr: 2, Ky: 3, Vx: 2 },
    cards: [
      card("SK1", ["must", "form"], "Solo", { Gt1: 2, Gt2: 1, Bs: 2, Dr: 2, Ky: 2 },
        "Two times round: keys first, guitar 1 second; keys lift a hand to hand over", "nobody looks up twice"),
      card("SK2", ["lift", "feel"], "whole", { Dr: 2, Bs: 2 },
        "Shuffle with a limp: last of the three is late", "sounds like stairs"),
      card("SK3", ["lift", "solo"], "Solo b13-24", { Gt1: 1 },
        "Ours: quote the tune, then leave it alone", "you could sing it"),
      card("SK4", ["polish", "general"], "V3", {},
        "Low brass answers the voice here; keys with a patch, or do without?", ""),
    ],
  },
  {
    song: "AL", written: -13, confirmed: -10,
    parts: { Gt1: 1, Gt2: 0, Bs: 1, Dr: 1, Ky: 2, Vx: 1 },
    cards: [
      card("AL1", ["must", "ending"], "Outro b13-16", { Ky: 1, Dr: 1 },
        "Spiral down, doors shut on 1", "one clunk"),
      card("AL2", ["lift", "tone"], "V1-Ch2", { Ky: 2 },
        "Reed patch, no chorus, play the left-hand buttons short", "bellows, not organ"),
      card("AL3", ["lift", "general"], "Ch1", {},
        "Bass and left hand seem to swap roots and fifths, listen again", ""),
    ],
  },
  {
    song: "LM", written: -11, confirmed: -10,
    parts: { Vx: 1 },
    cards: [
      card("LM1", ["lift", "vocal entry"], "V1 b1", { Vx: 1 },
        "Starts alone on beat 2; which key decides where the breath goes", "no reach in line 1"),
      card("LM2", ["polish", "general"], "Bridge", {}, "Strings or pad? Two lines cross here", ""),
    ],
  },
  {
    song: "NR", written: -10, confirmed: -10,
    parts: { Dr: 1 },
    cards: [
      card("NR1", ["lift", "general"], "whole", {}, "Somebody count the form, there is an odd bar in the second half", ""),
    ],
  },
  {
    song: "WT", written: -10, confirmed: -10,
    parts: { Gt1: 1, Ky: 1 },
    cards: [
      card("WT1", ["lift", "groove"], "V1-V4", { Dr: 0, Bs: 0 },
        "Lay back, bass holds each note to its last eighth", "Tuesday pace"),
      card("WT2", ["lift", "solo"], "Solo", { Gt1: 1 },
        "Twelve bars of telling, twelve bars of asking", "leaves room for an answer"),
    ],
  },
  {
    song: "HT", written: -113, confirmed: -101,
    parts: { Gt1: 2, Gt2: 1, Bs: 3, Dr: 3, Ky: 2, Vx: 3 },
    cards: [
      card("HT1", ["must", "ending"], "Outro b4", { Gt1: 2, Bs: 2, Dr: 3, Ky: 2 },
        "Last chop goes into the echo, nobody follows it", "the echo ends the song"),
      card("HT2", ["lift", "groove"], "V1-Ch3", { Dr: 3, Bs: 3 },
        "Kick on 3 only, bass leaves the one alone", "the one is implied"),
      card("HT3", ["lift", "pattern"], "V1-V3", { Ky: 2, Gt1: 2 },
        "Chop on 2 and 4, bubble around it", "one edge"),
    ],
  },
  {
    song: "AF", written: -112, confirmed: -94,
    parts: { Gt1: 2, Gt2: 2, Bs: 2, Dr: 3, Ky: 2, Vx: 3 },
    cards: [
      card("AF1", ["must", "ending"], "Outro b8", { Gt1: 2, Gt2: 2, Dr: 3 },
        "Chime chord, then the drawer shuts on 4: rim and mute", "a real drawer would be worse"),
      card("AF2", ["lift", "shape"], "Intro-V1", { Gt1: 2, Gt2: 1 },
        "Capo 1, E shapes, let the top two strings ring through changes", "no gap in the chime"),
    ],
  },
  {
    song: "SD", written: -111, confirmed: -94,
    parts: { Gt1: 2, Gt2: 1, Bs: 2, Dr: 2, Ky: 3, Vx: 2 },
    cards: [
      card("SD1", ["lift", "dynamics"], "V2-Ch2", { Bs: 2, Dr: 2, Ky: 3 },
        "Verse 2 at a one, chorus no more than a three", "snow absorbs sound"),
      card("SD2", ["must", "general"], "Outro", {}, "No ending yet: the last chord or the bells?", ""),
    ],
  },
  {
    song: "OC", written: -110, confirmed: -87,
    parts: { Gt1: 3, Gt2: 2, Bs: 3, Dr: 3, Ky: 2, Vx: 3 },
    cards: [
      card("OC1", ["must", "ending"], "Outro b7-8", { Gt1: 3, Bs: 2, Dr: 3 },
        "Three chords down, brush on the snare, nothing after", "the plate does not rattle"),
      card("OC2", ["lift", "pattern"], "V1-V2", { Bs: 2 },
        "Slap on 2 and 4, walk in between, stop before it hurts", "slap as loud as the note"),
      card("OC3", ["polish", "tone"], "Solo", { Gt1: 3 },
        "Short echo, one repeat, bridge pickup", "two guitars in a small room"),
    ],
  },
];
