/**
 * Gigs and rehearsals as an iCalendar file. Source: RFC 5545; sections beside the lines.
 * Governing rule: the same record of the same board has the same UID in every file, so a calendar replaces what it has.
 */
import type { Gig } from "../board/band.ts";
import type { Board } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Rehearsal } from "../board/rehearsal.ts";
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

/** What goes into the file. */
export interface Dates {
  readonly gigs: readonly Gig[];
  readonly rehearsals: readonly Rehearsal[];
}

/**
 * The file as text. A rehearsal with a start time is a moment and a length; everything else takes its whole day, as nobody
 * said when it begins. Times are in UTC: each date stands alone, and a zone's rules would have to be written out with it.
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
    lines: [`${gig.minutes} minutes to play`, ...songLines(source, gig)],
    when: wholeDay(gig.date),
  });

const gigName = ({ name, place }: Gig): string => name || place || "Gig";

/** The songs in playing order, each with the key of that night. */
const songLines = ({ board }: CalendarSource, gig: Gig): readonly string[] =>
  gig.songs.flatMap(({ song, key }, index) => {
    const known = board.songs.get(song)?.song;
    if (known === undefined) return [];
    const sounds = key ?? known.key;
    return [`${index + 1}. ${known.title}${sounds === "" ? "" : ` (${sounds})`}`];
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
    when:
      moment === null
        ? wholeDay(day)
        : contentLine("DTSTART", utc(moment)) +
          (booked > 0 ? contentLine("DURATION", formatIsoDuration(booked * 60)) : ""),
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

/** An event with a day and no end lasts that day (§3.6.1). */
const wholeDay = (day: string): string => contentLine("DTSTART;VALUE=DATE", day.replaceAll("-", ""));

/** A moment (ms) in form 2 of a date with time, to the second (§3.3.5). */
const utc = (ms: number): string =>
  new Date(Math.floor(ms / 1000) * 1000).toISOString().replace(/[-:]/g, "").replace(".000", "");
