/**
 * Gigs and rehearsals as an iCalendar file. Source: RFC 5545; sections beside the lines.
 * Governing rule: the same record of the same board has the same UID in every file, so a calendar replaces what it has.
 */
import type { Gig } from "../board/band.ts";
import type { Board } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Rehearsal } from "../board/rehearsal.ts";
import { addDays } from "../lib/calendar.ts";
import { formatIsoDuration } from "../music/duration.ts";
import { gigOfEvening, momentOn, playingMinutes } from "../selectors/evenings.ts";
import { contentLine, textValue } from "./content-lines.ts";

/** What the file is written from. */
export interface CalendarSource {
  readonly board: Pick<Board, "band" | "gigs" | "songs">;
  readonly boardId: Id;
  /** Moment of writing, ms. */
  readonly now: number;
}

/** What goes into the file: something, as a calendar holds at least one component (§3.6). */
export interface Dates {
  readonly gigs: readonly Gig[];
  readonly rehearsals: readonly Rehearsal[];
}

/**
 * The file as text. What has a time of day is a moment and a length; everything else takes its whole day, as nobody said
 * when it begins. Times are in UTC: each date stands alone, and a zone's rules would have to be written out with it.
 */
export const writeCalendar = (source: CalendarSource, { gigs, rehearsals }: Dates): string =>
  [
    contentLine("BEGIN", "VCALENDAR"),
    contentLine("VERSION", "2.0"),
    contentLine("PRODID", "-//Tightrow//Rehearsal board//EN"),
    ...gigs.map((gig) => gigEvent(source, gig)),
    ...rehearsals.map((rehearsal) => rehearsalEvent(source, rehearsal)),
    contentLine("END", "VCALENDAR"),
  ].join("");

interface Event {
  /** `gig/…` or `rehearsal/…`. */
  readonly record: string;
  readonly summary: string;
  readonly place: string;
  readonly lines: readonly string[];
  /** Content lines that say when. */
  readonly when: string;
}

const gigEvent = (source: CalendarSource, gig: Gig): string =>
  event(source, {
    record: `gig/${gig.id}`,
    summary: gigName(gig),
    place: gig.place,
    lines: [...agreedLines(gig), ...songLines(source, gig)],
    when: gigTimes(source, gig),
  });

/** What is agreed for the day. Whom to ring stands in no file that is handed around. */
const agreedLines = ({ call, start, minutes, dress }: Gig): readonly string[] => [
  ...(call === "" ? [] : [`everybody there at ${call}`]),
  ...(start === "" ? [] : [`playing begins at ${start}`]),
  `${minutes} minutes to play`,
  ...(dress === "" ? [] : [`dress: ${dress}`]),
];

/** From when everybody is there until the contracted minutes are played; without a start nobody knows the end. */
const gigTimes = ({ board }: CalendarSource, { date, call, start, minutes }: Gig): string => {
  const { timeZone } = board.band;
  const there = momentOn(date, call, timeZone);
  const playing = momentOn(date, start, timeZone);
  const begin = there ?? playing;
  if (begin === null) return wholeDay(date);
  if (playing === null) return contentLine("DTSTART", utc(begin));
  // A start that lies before the call is one after midnight.
  const until = playing < begin ? momentOn(addDays(date, 1), start, timeZone) : playing;
  return timed(begin, ((until ?? playing) - begin) / 60_000 + minutes);
};

const gigName = ({ name, place }: Gig): string => name || place || "Gig";

/** The songs in playing order, each with the key of that night. */
const songLines = ({ board }: CalendarSource, gig: Gig): readonly string[] =>
  gig.songs.flatMap(({ song, key, block }, index) => {
    const known = board.songs.get(song)?.song;
    if (known === undefined) return [];
    const sounds = key ?? known.key;
    const opens = gig.blocks.length > 1 && (index === 0 || block !== gig.songs[index - 1]?.block);
    const line = `${index + 1}. ${known.title}${sounds === "" ? "" : ` (${sounds})`}`;
    return opens ? [`block ${Math.min(block, gig.blocks.length - 1) + 1}`, line] : [line];
  });

const rehearsalEvent = (source: CalendarSource, rehearsal: Rehearsal): string => {
  const { day, start, booked } = rehearsal;
  const gig = gigOfEvening(source.board, rehearsal);
  const moment = momentOn(day, start, source.board.band.timeZone);
  return event(source, {
    record: `rehearsal/${day}`,
    summary: "Rehearsal",
    place: rehearsal.place,
    lines: [
      `${booked} minutes, ${playingMinutes(rehearsal)} of them to play`,
      ...(gig === null ? [] : [`for ${gigName(gig)}`]),
    ],
    when: moment === null ? wholeDay(day) : timed(moment, booked),
  });
};

const event = (
  { board, boardId, now }: CalendarSource,
  { record, summary, place, lines, when }: Event,
): string => {
  const { name } = board.band;
  return [
    contentLine("BEGIN", "VEVENT"),
    contentLine("UID", textValue(`${record}/${boardId}@tightrow`)),
    contentLine("DTSTAMP", utc(now)),
    when,
    contentLine("SUMMARY", textValue(name === "" ? summary : `${summary} (${name})`)),
    place === "" ? "" : contentLine("LOCATION", textValue(place)),
    contentLine("DESCRIPTION", textValue(lines.join("\n"))),
    contentLine("END", "VEVENT"),
  ].join("");
};

/** From a moment (ms) on, for so many minutes. */
const timed = (begin: number, minutes: number): string =>
  contentLine("DTSTART", utc(begin)) +
  (minutes > 0 ? contentLine("DURATION", formatIsoDuration(minutes * 60)) : "");

/** An event with a day and no end lasts that day (§3.6.1). */
const wholeDay = (day: string): string => contentLine("DTSTART;VALUE=DATE", day.replaceAll("-", ""));

/** A moment (ms) in form 2 of a date with time, to the second (§3.3.5). */
const utc = (ms: number): string =>
  new Date(Math.floor(ms / 1000) * 1000).toISOString().replace(/[-:]/g, "").replace(".000", "");
