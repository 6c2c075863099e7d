import { existsSync, mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import { backupName, createNightlyBackups, outdated } from "#server/upkeep/nightly-backups.ts";
import { newDataFolder } from "#tests/support/built-server.ts";

const RETENTION = { days: 3, months: 2 };

const setup = async () => {
  const folder = join(await newDataFolder(), "backups");
  const events: string[] = [];
  const note = (event: string): void => void events.push(event);
  let now = new Date(2031, 4, 6, 3, 0);
  let full = false;
  const nightly = createNightlyBackups({
    folder,
    retention: RETENTION,
    hour: 4,
    write: async (file) => {
      if (full) throw new Error("no space left on device");
      writeFileSync(file, "a copy");
    },
    now: () => now,
    log: { info: note, warn: note, error: note },
  });
  return {
    nightly,
    events,
    files: () => (existsSync(folder) ? readdirSync(folder).sort() : []),
    at: (next: Date) => {
      now = next;
    },
    fill: (on: boolean) => {
      full = on;
    },
    folder,
  };
};

test("[SRV-20] one backup a day, from its hour on, also after a night asleep", async () => {
  const { nightly, at, files } = await setup();
  await nightly.tick();
  expect(files()).toEqual([]);
  at(new Date(2031, 4, 6, 4, 0));
  await nightly.tick();
  await nightly.tick();
  expect(files()).toEqual(["tightrow-2031-05-06.db"]);
  at(new Date(2031, 4, 9, 22, 30));
  await nightly.tick();
  expect(files()).toEqual(["tightrow-2031-05-06.db", "tightrow-2031-05-09.db"]);
});

test("a backup that fails is said, and tried again an hour later", async () => {
  const { nightly, at, files, events, fill } = await setup();
  fill(true);
  at(new Date(2031, 4, 6, 4, 0));
  await nightly.tick();
  fill(false);
  at(new Date(2031, 4, 6, 4, 30));
  await nightly.tick();
  expect(files()).toEqual([]);
  at(new Date(2031, 4, 6, 5, 1));
  await nightly.tick();
  expect(files()).toEqual(["tightrow-2031-05-06.db"]);
  expect(events).toEqual(["not-backed-up", "backed-up"]);
});

test("the newest days and the first of each of the last months stay; other files are nobody's business", async () => {
  const { nightly, at, files, folder } = await setup();
  mkdirSync(folder, { recursive: true });
  for (const name of ["2031-02-03", "2031-03-01", "2031-03-20", "2031-04-02", "2031-04-28", "2031-05-05"])
    writeFileSync(join(folder, backupName(name)), "a copy");
  writeFileSync(join(folder, "before-the-tour.db"), "by hand");
  at(new Date(2031, 4, 6, 4, 0));
  await nightly.tick();
  expect(files()).toEqual([
    "before-the-tour.db",
    "tightrow-2031-04-02.db",
    "tightrow-2031-04-28.db",
    "tightrow-2031-05-05.db",
    "tightrow-2031-05-06.db",
  ]);
});

test("a clock that was a year off neither throws today's backup away nor makes it again every minute", async () => {
  const { nightly, at, files, folder, events } = await setup();
  mkdirSync(folder, { recursive: true });
  const wrong = ["2032-05-04", "2032-05-05", "2032-05-06", "2032-05-07"];
  for (const day of wrong) writeFileSync(join(folder, backupName(day)), "made under a wrong clock");
  at(new Date(2031, 4, 6, 4, 0));
  await nightly.tick();
  expect(files()).toContain("tightrow-2031-05-06.db");
  at(new Date(2030, 4, 6, 4, 0));
  await nightly.tick();
  await nightly.tick();
  expect(files()).toContain("tightrow-2030-05-06.db");
  expect(events).toEqual(["backed-up", "backed-up"]);
});

test("a backup that failed is tried again within the hour when the clock is set back meanwhile", async () => {
  const { nightly, at, files, events, fill } = await setup();
  fill(true);
  at(new Date(2032, 4, 6, 4, 0));
  await nightly.tick();
  fill(false);
  at(new Date(2031, 4, 6, 4, 1));
  await nightly.tick();
  expect(files()).toEqual(["tightrow-2031-05-06.db"]);
  expect(events).toEqual(["not-backed-up", "backed-up"]);
});

test("retention never names more than it may, and never the newest", () => {
  const day = fc
    .date({ min: new Date(2030, 0, 1), max: new Date(2033, 0, 1), noInvalidDate: true })
    .map((date) => date.toISOString().slice(0, 10));
  fc.assert(
    fc.property(
      fc.uniqueArray(day, { minLength: 1, maxLength: 60 }),
      fc.nat(30),
      fc.nat(12),
      day,
      (dates, days, months, today) => {
        const all = dates.map(backupName).sort();
        const later = all.filter((name) => name > backupName(today));
        const names = [...later, ...all.filter((name) => !later.includes(name))];
        const gone = outdated(all, { days, months }, today);
        const left = names.filter((name) => !gone.includes(name));
        expect(left.slice(-days || names.length + 1)).toEqual(days === 0 ? [] : names.slice(-days));
        expect(left.length).toBeLessThanOrEqual(days + months);
        // What stays today stays when the same is asked again.
        expect(outdated(left, { days, months }, today)).toEqual([]);
      },
    ),
    { numRuns: 1000 },
  );
});
