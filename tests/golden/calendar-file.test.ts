/**
 * Gigs and rehearsals as iCalendar. Sources: RFC 5545 (sections and examples beside the checks); ical.js 2.2.1 as an
 * outside reader.
 */
import fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import type { Gig } from "#shared/board/band.ts";
import type { Rehearsal } from "#shared/board/rehearsal.ts";
import { writeCalendar } from "#shared/exchange/calendar-file.ts";
import { contentLine, textValue } from "#shared/exchange/content-lines.ts";
import { addDays } from "#shared/lib/calendar.ts";
import { eveningOn } from "#shared/selectors/evenings.ts";
import { smallBand } from "#tests/support/command-bench.ts";
import { laws } from "#tests/support/fuzz.ts";

const NOW = Date.UTC(2026, 2, 5, 18, 30, 59, 999);
const board = smallBand().board();
const source = { board, boardId: "b7", now: NOW };

const harbour = board.gigs[0] as Gig;
const evening: Rehearsal = { ...eveningOn({ rehearsals: [] }, "2026-03-11"), start: "19:30" };

const octets = (line: string): number => new TextEncoder().encode(line).length;
const unfolded = (text: string): string => text.replaceAll("\r\n ", "");
const eventsOf = (text: string) =>
  new ICAL.Component(ICAL.parse(text)).getAllSubcomponents("vevent").map((event) => new ICAL.Event(event));
const only = (text: string) => {
  const [event] = eventsOf(text);
  if (event === undefined) throw new Error("there is no event");
  return event;
};

describe("content lines", () => {
  test("§3.1: the RFC's folded description unfolds to one line", () => {
    const folded = "DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line.".replaceAll(
      "\r\n ",
      "",
    );
    expect(folded).toBe("DESCRIPTION:This is a long description that exists on a long line.");
    expect(contentLine("DESCRIPTION", "This is a long description that exists on a long line.")).toBe(
      `${folded}\r\n`,
    );
  });

  test("§3.1: 75 octets stay on one line, the 76th begins another, which its space counts to", () => {
    expect(contentLine("X", "a".repeat(73))).toBe(`X:${"a".repeat(73)}\r\n`);
    expect(contentLine("X", "a".repeat(74))).toBe(`X:${"a".repeat(73)}\r\n a\r\n`);
    expect(contentLine("X", "a".repeat(73 + 75))).toBe(`X:${"a".repeat(73)}\r\n ${"a".repeat(74)}\r\n a\r\n`);
  });

  test("§3.3.11: the RFC's own text value", () => {
    expect(textValue("Project XYZ Final Review\nConference Room - 3B\nCome Prepared.")).toBe(
      "Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.",
    );
    expect(textValue("a\\b; c, d: e")).toBe("a\\\\b\\; c\\, d: e");
  });

  test("any text: lines of at most 75 octets, CRLF only, and unfolding gives back the line", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 120 }), (text) => {
        const value = textValue(text);
        const written = contentLine("SUMMARY", value);
        expect(Math.max(...written.split("\r\n").map(octets))).toBeLessThanOrEqual(75);
        expect(written.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
        expect(unfolded(written)).toBe(`SUMMARY:${value}\r\n`);
      }),
      laws(300),
    );
  });
});

describe("read by ical.js", () => {
  const scrap = fc.constantFrom(
    "\\",
    ";",
    ",",
    "\n",
    ":",
    '"',
    " ",
    "\\n",
    "é",
    "🥁",
    "👩‍🎤",
    "מ",
    "Tram",
    "\t",
  );
  const words = fc.oneof(
    fc.array(scrap, { maxLength: 60 }).map((parts) => parts.join("")),
    fc.string({ unit: "grapheme", maxLength: 120 }),
  );

  test("[FILE-1] any name, place, title and band survive", () => {
    fc.assert(
      fc.property(words, words, words, (name, place, title) => {
        const file = board.songs.get("diesel");
        if (file === undefined) throw new Error("no song");
        const text = writeCalendar(
          {
            ...source,
            board: {
              ...board,
              band: { ...board.band, name: "" },
              songs: new Map([["diesel", { ...file, song: { ...file.song, title, key: "" } }]]),
            },
          },
          { gigs: [{ ...harbour, name, place }], rehearsals: [] },
        );
        const event = only(text);
        const said = (value: string): string =>
          value.replace(/\r\n|\r/g, "\n").replace(/(?![\t\n])\p{Cc}/gu, "");
        expect(event.summary).toBe(said(name || place || "Gig"));
        expect(event.location ?? "").toBe(said(place));
        expect(event.description).toBe(`90 minutes to play\n1. ${said(title)}`);
      }),
      laws(),
    );
  });

  test("§3.6.1: a gig takes its day, with minutes and songs in order and the key of that night", () => {
    const text = writeCalendar(source, {
      gigs: [
        {
          ...harbour,
          place: "Pier 9, hall B",
          songs: harbour.songs.map((called) => ({ ...called, key: "Dm" })),
        },
      ],
      rehearsals: [],
    });
    const event = only(text);
    expect(event.startDate.isDate).toBe(true);
    expect(event.startDate.toString()).toBe("2026-04-18");
    expect(event.endDate.toString()).toBe("2026-04-19");
    expect(event.summary).toBe("Harbour night (Six Spare Fuses)");
    expect(event.location).toBe("Pier 9, hall B");
    expect(event.description).toBe("90 minutes to play\n1. Marzipan Diesel (Dm)");
    expect(unfolded(text)).toContain("\r\nDTSTAMP:20260305T183059Z\r\n");
  });

  // Lisbon is an hour ahead of UTC on 2026-04-18.
  test.each([
    ["18:30", "20:00", "2026-04-18T17:30:00Z", 180],
    ["", "20:00", "2026-04-18T19:00:00Z", 90],
    ["23:00", "00:30", "2026-04-18T22:00:00Z", 180],
    ["18:30", "", "2026-04-18T17:30:00Z", 0],
  ])(
    "a gig with a call at “%s” and a start at “%s” begins at %s and lasts %i minutes",
    (call, start, begin, minutes) => {
      const event = only(writeCalendar(source, { gigs: [{ ...harbour, call, start }], rehearsals: [] }));
      expect(event.startDate.toString()).toBe(begin);
      expect(event.duration.toSeconds()).toBe(minutes * 60);
    },
  );

  test("a gig says what is agreed and its blocks, and not whom to ring", () => {
    const gig: Gig = {
      ...harbour,
      call: "18:30",
      start: "20:00",
      dress: "black",
      contact: "+351 555 0199",
      blocks: [45, 45],
      songs: harbour.songs.flatMap((called) => [called, { ...called, song: "umbrella", block: 1 }]),
    };
    expect(only(writeCalendar(source, { gigs: [gig], rehearsals: [] })).description.split("\n")).toEqual([
      "everybody there at 18:30",
      "playing begins at 20:00",
      "90 minutes to play",
      "dress: black",
      "block 1",
      "1. Marzipan Diesel (Em)",
      "block 2",
      "2. Umbrella Season",
    ]);
  });

  // Lisbon's clocks went forward on 2026-03-29: 19:30 is 19:30 UTC before it and 18:30 UTC after.
  test.each([
    ["2026-03-11", "2026-03-11T19:30:00Z"],
    ["2026-04-01", "2026-04-01T18:30:00Z"],
  ])("§3.3.5: half past seven on %s in the band's zone is %s", (day, moment) => {
    const text = writeCalendar(source, { gigs: [], rehearsals: [{ ...evening, day, booked: 150 }] });
    const event = only(text);
    expect(event.startDate.toString()).toBe(moment);
    expect(event.duration.toSeconds()).toBe(9000);
    expect(event.summary).toBe("Rehearsal (Six Spare Fuses)");
    expect(event.description).toBe("150 minutes, 115 of them to play\nfor Harbour night");
  });

  test("a rehearsal without a start time takes its day", () => {
    const event = only(writeCalendar(source, { gigs: [], rehearsals: [{ ...evening, start: "" }] }));
    expect(event.startDate.isDate).toBe(true);
    expect(event.startDate.toString()).toBe("2026-03-11");
  });

  test("one record has one UID for ever, and no two records of any two boards share one", () => {
    const days = Array.from({ length: 5 }, (_, n) => ({ ...evening, day: addDays("2026-03-11", n) }));
    const dates = { gigs: [harbour, { ...harbour, id: "other" }], rehearsals: days };
    const uids = (boardId: string, now: number) =>
      eventsOf(writeCalendar({ ...source, boardId, now }, dates)).map(({ uid }) => uid);
    expect(uids("b7", NOW)).toEqual(uids("b7", NOW + 1e9));
    expect(new Set([...uids("b7", NOW), ...uids("b8", NOW)]).size).toBe(14);
  });
});

test("[FILE-2] who is away, what somebody remarked and what was said of a part stand in no calendar", () => {
  const everything = writeCalendar(source, { gigs: board.gigs, rehearsals: board.rehearsals });
  for (const word of ["minjae", "Min-jae", "lucia", "Luc", "Choke", "brushes"])
    expect(everything).not.toContain(word);
});
