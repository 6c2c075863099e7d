import type { DemoTake } from "../demo-data.ts";
import { DEMO_SONGS } from "../songs/all-songs.ts";

const LENGTHS = new Map(DEMO_SONGS.map(({ code, length }) => [code, length]));

/** Minutes a take costs in the room: a run its length and one to breathe, a stretch six, a detail four. */
export const roomMinutes = ({ song, scope }: DemoTake): number =>
  scope.of === "whole" ? (LENGTHS.get(song) ?? 0) / 60 + 1 : scope.of === "sections" ? 6 : 4;
