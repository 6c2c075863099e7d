import { expect, test } from "vitest";
import { formatIsoDuration, formatLength, parseIsoDuration } from "#shared/music/duration.ts";
import { beatsPerBar, isCompound, type Metre, parseMetre } from "#shared/music/metre.ts";
import {
  distancePercent,
  driftPercent,
  expectedSeconds,
  secondsPerBar,
  secondsPerBeat,
} from "#shared/music/tempo.ts";

const metre = (text: string): Metre => {
  const read = parseMetre(text);
  if (!read.ok) throw new Error(read.error);
  return read.value;
};

/**
 * Tempo, microseconds per crotchet, seconds per 4/4 bar. Source of the microseconds: the set-tempo meta event
 * FF 51 03 of Standard MIDI Files 1.0 (120 bpm = 07 A1 20 is its own example); the rest is arithmetic.
 */
const tempos: readonly (readonly [number, number, number])[] = [
  [60, 0x0f4240, 4],
  [90, 0x0a2c2b, 2.6667],
  [100, 0x0927c0, 2.4],
  [120, 0x07a120, 2],
  [128, 0x07270e, 1.875],
  [140, 0x068a1b, 1.7143],
];

test.each(tempos)("at %d bpm a beat lasts %d µs and a 4/4 bar %d s", (bpm, micros, bar) => {
  expect(Math.round(secondsPerBeat(bpm) * 1e6)).toBe(micros);
  expect(secondsPerBar(bpm, metre("4/4"))).toBeCloseTo(bar, 4);
});

test("6/8, 9/8 and 12/8 are compound and counted in dotted crotchets (elementary theory; tonal 6.4.2 TimeSignature agrees)", () => {
  const counted = ["6/8", "9/8", "12/8", "2/4", "3/4", "4/4", "5/4", "3/8", "7/8", "3+2+2/8", "3+3/8", "6/4"];
  expect(counted.map((text) => beatsPerBar(metre(text)))).toEqual([2, 3, 4, 2, 3, 4, 5, 3, 7, 7, 2, 6]);
  expect(["6/8", "12/8", "3/8", "6/4"].map((text) => isCompound(metre(text)))).toEqual([
    true,
    true,
    false,
    false,
  ]);
});

/** Bars, tempo, metre, length to the second: the invented demo band's own songs, whose lengths were worked by hand. */
const songs: readonly (readonly [string, number, number, string, string])[] = [
  ["Marzipan Diesel", 112, 112, "4/4", "4:00"],
  ["Tollbooth Cinnamon", 90, 94, "4/4", "3:50"],
  ["Low Tide at the Ticket Office", 116, 54, "6/8", "4:18"],
  ["Umbrella for the Tram Inspector", 124, 168, "4/4", "2:57"],
  ["Wrong Side of the Aquarium", 128, 116, "4/4", "4:25"],
  ["Lamplighter's Overdraft", 80, 76, "4/4", "4:13"],
];

test.each(songs)("%s: %d bars at %d in %s last %s", (_, bars, bpm, signature, length) => {
  expect(formatLength(expectedSeconds(bars, bpm, metre(signature)))).toBe(length);
});

test("the windows of 4 % and 8 % around 120 bpm end at 124.8 and 129.6 (ISMIR 2004 and MIREX tempo metrics)", () => {
  expect(distancePercent(124.8, 120)).toBeCloseTo(4, 10);
  expect(distancePercent(129.6, 120)).toBeCloseTo(8, 10);
  expect(driftPercent(120, 110.4)).toBeCloseTo(-8, 10);
});

/** Durations. Source: ISO 8601 as read by luxon 3.7.2; the last two are examples of RFC 5545 §3.3.6. */
const durations: readonly (readonly [string, number])[] = [
  ["PT3M45S", 225],
  ["PT1H30M", 5400],
  ["P1W", 604_800],
  ["PT36H", 129_600],
  ["PT0.5S", 0.5],
  ["P15DT5H0M20S", 1_314_020],
  ["P7W", 4_233_600],
];

test.each(durations)("%s lasts %d s", (text, seconds) => {
  expect(parseIsoDuration(text)).toBe(seconds);
});

test("weeks mixed with other units, empty durations and months are none (RFC 5545 §3.3.6; ISO 8601)", () => {
  for (const wrong of ["P1W2D", "P", "PT", "P1DT", "P1M", "P1Y", "3:45", "PT3M45"]) {
    expect(parseIsoDuration(wrong), wrong).toBeNull();
  }
  expect([225, 5400, 0, 45].map(formatIsoDuration)).toEqual(["PT3M45S", "PT1H30M", "PT0S", "PT45S"]);
});
