import { mkdirSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { type Log, whyOf } from "../log.ts";

/** How many backups stay. */
export interface Retention {
  /** The newest ones, one a day. */
  readonly days: number;
  /** Beyond them, the first one of each of so many months. */
  readonly months: number;
}

export interface NightlyParts {
  /** Folder of the backups. */
  readonly folder: string;
  readonly retention: Retention;
  /** Hour of the machine's day from which the day's backup is due, 0 to 23. */
  readonly hour: number;
  /** Writes a backup to a path that is not in use. */
  readonly write: (file: string) => Promise<void>;
  /** The machine's local time. */
  readonly now: () => Date;
  readonly log: Log;
}

export interface Nightly {
  /** Writes the day's backup when it is due and missing; never rejects. Call about every minute. */
  tick(): Promise<void>;
}

const RETRY_MS = 3_600_000;

const NAME = /^tightrow-(\d{4}-\d{2}-\d{2})\.db$/;

/** Name of a day's backup; `day` as year-month-day. */
export const backupName = (day: string): string => `tightrow-${day}.db`;

const dayOf = (moment: Date): string => {
  const two = (n: number): string => String(n).padStart(2, "0");
  return `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
};

/**
 * Of these file names, the backups that retention no longer keeps on the day `today`. Other names are never among them.
 * A backup of a later day was made while the clock was wrong: it goes before the others, whichever day is the wrong one,
 * so that the backup just made always stays.
 */
export const outdated = (names: readonly string[], { days, months }: Retention, today: string): string[] => {
  const dated = names.filter((name) => NAME.test(name)).sort();
  const isLater = (name: string): boolean => name > backupName(today);
  const backups = [...dated.filter(isLater), ...dated.filter((name) => !isLater(name))];
  const newest = new Set(backups.slice(Math.max(0, backups.length - days)));
  const firstOfMonth = new Map<string, string>();
  for (const name of backups) {
    const month = `${(NAME.exec(name)?.[1] ?? "").slice(0, 7)}${isLater(name) ? " later" : ""}`;
    if (!firstOfMonth.has(month)) firstOfMonth.set(month, name);
  }
  const firsts = [...firstOfMonth.values()];
  const monthly = new Set(firsts.slice(Math.max(0, firsts.length - months)));
  return backups.filter((name) => !newest.has(name) && !monthly.has(name));
};

/** Backs up once a day, from a given hour on; a machine that slept through it catches up when it wakes. */
export const createNightlyBackups = (parts: NightlyParts): Nightly => {
  const { folder, retention, hour, write, now, log } = parts;
  let running = false;
  /** A day whose backup failed is tried again an hour later, not every minute. */
  let failedAt: number | null = null;
  const failedLately = (moment: number): boolean =>
    failedAt !== null && Math.abs(moment - failedAt) < RETRY_MS;

  const backUp = async (day: string): Promise<void> => {
    const started = now().getTime();
    await write(join(folder, backupName(day)));
    log.info("backed-up", { day, ms: now().getTime() - started });
    for (const name of outdated(readdirSync(folder), retention, day))
      rmSync(join(folder, name), { force: true });
  };

  return {
    async tick() {
      const moment = now();
      const day = dayOf(moment);
      if (running || retention.days === 0 || moment.getHours() < hour || failedLately(moment.getTime()))
        return;
      running = true;
      try {
        mkdirSync(folder, { recursive: true, mode: 0o700 });
        if (!readdirSync(folder).includes(backupName(day))) await backUp(day);
      } catch (error) {
        failedAt = moment.getTime();
        log.error("not-backed-up", { day, why: whyOf(error) });
      } finally {
        running = false;
      }
    },
  };
};
