import { expect, test } from "vitest";
import { GATES } from "#shared/board/gate.ts";
import { gigReady } from "#shared/readiness/gates.ts";
import { namesOf } from "#shared/readiness/names.ts";
import { GATE_WORDS, gateLines } from "#shared/selectors/gate-lines.ts";
import { CROWD, SEATED } from "#tests/support/a-row.ts";
import { SONG } from "#tests/support/histories.ts";
import { aSong, asked, readyFile } from "#tests/support/ready-song.ts";

const names = namesOf({ chairs: SEATED, people: CROWD });

test("six lines in the order the gates are asked, each with a heading of its own", () => {
  const lines = gateLines(gigReady(asked(readyFile(), 25), { gig: null, names }));
  expect(lines.map(({ gate }) => gate)).toEqual(GATES);
  expect(new Set(Object.values(GATE_WORDS)).size).toBe(GATES.length);
  expect(lines.map(({ stands }) => stands)).toEqual(GATES.map(() => "ok"));
});

test("a no says its sentence; a waived one says who let it pass", () => {
  const waiver = { song: SONG, gate: "debut", by: "tomasz", at: 0, note: "a short slot" } as const;
  const gig = { songs: [], waivers: [waiver] };
  const lines = gateLines(gigReady(asked(aSong(), 25), { gig, names }));
  const together = lines.find(({ gate }) => gate === "together");
  expect(together).toMatchObject({ stands: "no", sentence: "No whole run by this line-up is in the log." });
  expect(lines.find(({ gate }) => gate === "debut")).toMatchObject({ stands: "waived", waiver });
});
