/**
 * A restore meets what somebody did who was away: before it, across it and after it. Three devices: the leader's, one
 * that is in touch with it, and one that is away from before the moment that is restored until the end.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { findCard } from "#shared/commands/checks.ts";
import { statusOf } from "#shared/commands/mark-detail.ts";
import type { RestoreWrite } from "#shared/commands/restore-write.ts";
import { foldHistory } from "#shared/history/history.ts";
import { restoreWrites } from "#shared/history/restore-writes.ts";
import { laws } from "#tests/support/fuzz.ts";
import { ROLLED } from "#tests/support/random-commands.ts";
import { meet, openReplica, type Replica, startClock } from "#tests/support/replicas.ts";

const timeout = 300_000 * Number(process.env.TIGHTROW_FUZZ ?? 1);

const dice = { a: fc.nat(5), b: fc.nat(5), c: fc.nat(11) };
const OFTEN = [
  "markDetail",
  "rewordDetail",
  "logTake",
  "reviseSong",
  "removeSong",
  "removeDetail",
  "addDetail",
];
const step = fc.record({
  command: fc.constantFrom(...OFTEN, ...OFTEN, ...ROLLED),
  by: fc.constantFrom("leader", "near", "away"),
  ...dice,
});
type Step = typeof step extends fc.Arbitrary<infer S> ? S : never;
const storyOf = (of: fc.Arbitrary<Step>) => {
  const steps = (max: number) => fc.array(of, { maxLength: max, size: "max" });
  return fc.record({ before: steps(15), since: steps(25), after: steps(15) });
};
const story = storyOf(step);
/** Everybody marks and rewords the same two details. */
const contest = storyOf(
  fc.record({
    command: fc.constantFrom("markDetail", "rewordDetail"),
    by: fc.constantFrom("leader", "near", "away"),
    a: fc.constant(0),
    b: fc.nat(1),
    c: fc.nat(11),
  }),
);

const SEED: readonly (readonly [name: string, args: unknown])[] = [
  ["startBand", { name: "Six Spare Fuses", timeZone: "Europe/Lisbon" }],
  ["addPerson", { name: "Lucía Borrasco" }],
  ["addPerson", { name: "Tomasz Wrzosnowicz" }],
  ["addChair", { name: "Drums", instrument: "drums", holder: "leader-2" }],
  ["addChair", { name: "Bass", instrument: "bass", holder: "leader-3" }],
  ["addSong", { title: "Marzipan Diesel", tempo: 112 }],
  ["addSong", { title: "Umbrella Season" }],
  ["addDetail", { song: "leader-6", text: "Choke on 4-and", chairs: ["leader-4"] }],
  ["addDetail", { song: "leader-6", text: "Push into the chorus", chairs: ["leader-4", "leader-5"] }],
  ["planGig", { name: "Harbour night", date: "2026-04-18", minutes: 90 }],
];

interface Told {
  readonly leader: Replica;
  readonly near: Replica;
  readonly away: Replica;
  readonly writes: readonly RestoreWrite[];
  /** How many keys each had written when the restore ran. */
  readonly restoredAt: number;
  /** Keys that the two in touch wrote after `away` left, apart from the restore itself. */
  readonly theirs: ReadonlySet<string>;
  /** Those of them written after the restore. */
  readonly theirsAfter: ReadonlySet<string>;
  readonly awaysKeys: ReadonlySet<string>;
}

const tell = ({
  before,
  since,
  after,
}: { readonly [phase in "before" | "since" | "after"]: readonly Step[] }) => {
  const clock = startClock();
  const leader = openReplica("leader", clock);
  const near = openReplica("near", clock);
  const away = openReplica("away", clock);
  const devices = { leader, near, away };
  const play = (all: readonly Step[]): void => {
    for (const { command, by, ...rest } of all) {
      devices[by].move(command, rest);
      meet(leader, near);
    }
  };
  const keysSince = (marks: readonly (readonly [Replica, number])[]): Set<string> =>
    new Set(
      marks.flatMap(([replica, from]) => replica.noted.slice(from).map(({ map, key }) => `${map}/${key}`)),
    );

  for (const [name, args] of SEED) leader.run(name, args);
  meet(leader, near, away);
  // From here on `away` is alone; the moment that is restored comes a little later.
  const [leaderLeft, nearLeft, awayLeft] = [leader.noted.length, near.noted.length, away.noted.length];
  play(before);
  const moment = foldHistory(Y.encodeStateAsUpdate(leader.ydoc), []).end;
  play(since);
  const writes = restoreWrites(leader.document, moment);
  const theirs = keysSince([
    [leader, leaderLeft],
    [near, nearLeft],
  ]);
  if (writes.length > 0) {
    const done = leader.run("restoreBoard", { moment: clock.now, writes: structuredClone(writes) });
    if (!done.ok) throw new Error(done.error.sentence);
  }
  const restoredAt = clock.now;
  meet(leader, near);
  const [leaderAfter, nearAfter] = [leader.noted.length, near.noted.length];
  play(after);
  const theirsAfter = keysSince([
    [leader, leaderAfter],
    [near, nearAfter],
  ]);
  meet(leader, near, away);
  const told: Told = {
    leader, near, away, writes, restoredAt,
    theirs: new Set([...theirs, ...theirsAfter]),
    theirsAfter,
    awaysKeys: keysSince([[away, awayLeft]]),
  }; // biome-ignore format: one glance
  return told;
};

test("[HIST-4] all devices read the same board once they meet again", { timeout }, () => {
  fc.assert(
    fc.property(story, (phases) => {
      const { leader, near, away } = tell(phases);
      expect(near.board()).toEqual(leader.board());
      expect(away.board()).toEqual(leader.board());
    }),
    laws(150),
  );
});

test("[HIST-4] what was done away and the restore says nothing about stands", { timeout }, () => {
  let stood = 0;
  fc.assert(
    fc.property(story, (phases) => {
      const { leader, away, writes, theirs } = tell(phases);
      const restored = new Set(
        writes.flatMap((write) => ("key" in write ? [`${write.map}/${write.key}`] : [])),
      );
      const last = new Map(away.noted.map(({ map, key, after }) => [`${map}/${key}`, { map, key, after }]));
      for (const [name, { map, key, after }] of last) {
        if (restored.has(name) || theirs.has(name)) continue;
        stood += 1;
        expect(leader.document.get(map, key)).toEqual(after);
      }
    }),
    laws(150),
  );
  expect(stood).toBeGreaterThan(300);
});

test("[HIST-4] what was restored stands unless somebody spoke about the same thing apart or later", {
  timeout,
}, () => {
  let stood = 0;
  fc.assert(
    fc.property(story, (phases) => {
      const { leader, writes, theirsAfter, awaysKeys } = tell(phases);
      for (const write of writes) {
        if (!("key" in write)) continue;
        const name = `${write.map}/${write.key}`;
        if (theirsAfter.has(name) || awaysKeys.has(name)) continue;
        stood += 1;
        const stands = leader.document.get(write.map, write.key);
        if (write.put === "value") expect(stands).toEqual(write.value);
        else expect(stands).toMatchObject(write.map === "slips" ? { severity: 0 } : { withdrawn: true });
      }
    }),
    laws(150),
  );
  expect(stood).toBeGreaterThan(300);
});

test("[HIST-4] of two marks the later one counts, be it the restored one or one made away", {
  timeout,
}, () => {
  let [restoredWon, awayWon] = [0, 0];
  fc.assert(
    fc.property(contest, (phases) => {
      const { leader, near, away, writes, restoredAt } = tell(phases);
      const marks = [...leader.noted, ...near.noted, ...away.noted].filter(({ map }) => map === "statuses");
      for (const write of writes) {
        if (write.put !== "mark") continue;
        const counts = statusOf(leader.board(), write.card, write.member);
        if (counts === null) continue;
        const later = marks.filter(
          ({ key, at }) => key.startsWith(`${write.card}/${write.member}/`) && at > restoredAt,
        );
        if (later.length === 0) {
          restoredWon += 1;
          expect(counts).toMatchObject({ writer: "leader", level: write.level, anchor: write.anchor });
        } else {
          awayWon += 1;
          expect(later.map(({ after }) => after)).toContainEqual(
            expect.objectContaining({ at: counts.at, level: counts.level }),
          );
        }
      }
    }),
    laws(150),
  );
  expect(restoredWon).toBeGreaterThan(50);
  expect(awayWon).toBeGreaterThan(50);
});

test("[HIST-4] a wording written away and a restored one are both shown", { timeout }, () => {
  let both = 0;
  fc.assert(
    fc.property(contest, (phases) => {
      const { leader, away, writes, theirsAfter } = tell(phases);
      for (const write of writes) {
        if (write.put !== "wording") continue;
        const { card, field, text } = write;
        const mine = away.noted.findLast(
          ({ map, key }) => map === "texts" && key === `${card}/${field}/away`,
        );
        const found = findCard(leader.board(), card);
        if (mine === undefined || found === null) continue;
        const shown = found.card.versions[field].map((version) => version.text);
        both += 1;
        expect(shown).toContain(Reflect.get(Object(mine.after), "text"));
        const rewordedSince = [...theirsAfter].some((key) => key.startsWith(`texts/${card}/${field}/`));
        if (!rewordedSince) expect(shown).toContain(text);
      }
    }),
    laws(150),
  );
  expect(both).toBeGreaterThan(100);
});
