import { DEFAULT_SETTINGS } from "#shared/board/settings.ts";
import { endOfDay } from "#shared/lib/calendar.ts";
import type { ScoreInput } from "#shared/readiness/score-input.ts";
import { CHAIRS, START } from "#tests/support/histories.ts";
import { aCard, aMark, aRun, aSong, holderOf } from "#tests/support/ready-song.ts";

/** A song with one must that was played twice, looked at from 5 March 2026. */
export const aReadyInput = (): ScoreInput => ({
  file: aSong({
    cards: [aCard("c1")],
    statuses: new Map([["c1", new Map([[holderOf("gt"), aMark(2, 1)]])]]),
    takes: [aRun(1), aRun(2, { feel: "wobble" })],
  }),
  chairs: CHAIRS.map((id) => ({
    id,
    name: id,
    short: id,
    instrument: "other" as const,
    holder: holderOf(id),
    order: id,
  })),
  lineUp: new Map(CHAIRS.map((id) => [id, holderOf(id)])),
  settings: DEFAULT_SETTINGS,
  t: endOfDay("2026-03-14", "UTC"),
  asOf: Math.max(endOfDay("2026-03-05", "UTC"), START + 3 * 86_400_000),
});
