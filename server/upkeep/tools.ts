import { existsSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { isDay } from "#shared/lib/calendar.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import { joiningAddress } from "#shared/protocol/joining-address.ts";
import { hashSecret, mintId, mintSecret } from "../access/tokens.ts";
import { whyOf } from "../log.ts";
import type { Settings } from "../settings/settings.ts";
import { DATABASE_FILE } from "../storage/data-folder.ts";
import { sqliteMembers } from "../storage/sqlite-members.ts";
import { guarded } from "../storage/sqlite-write.ts";
import { writeBackup } from "./backup-file.ts";
import { boardAsJson, listBoards, openForReading } from "./read-boards.ts";
import { restoreBackup } from "./restore-file.ts";

/** A job for the person who runs the server, done by a process of its own beside a server that may be running. */
interface Tool {
  /** Its arguments, as `--help` shows them. */
  readonly usage: string;
  readonly help: string;
  /** Resolves to what to print, or to one sentence that says why not. */
  readonly run: (job: Job) => Promise<Result<string>>;
}

interface Job {
  readonly args: readonly string[];
  readonly settings: Settings;
  readonly now: Date;
}

const LINK_HOURS = 24;
const HOUR_MS = 3_600_000;

/** `2026-11-28T03-20-05`: sorts by time and is a file name everywhere. */
const stampOf = (now: Date): string => now.toISOString().slice(0, 19).replaceAll(":", "-");

const databaseOf = ({ data }: Settings): string => join(data, DATABASE_FILE);

/** Runs work on the data folder's database; whatever goes wrong is a sentence. */
const withDatabase = async (
  settings: Settings,
  open: (file: string) => Database.Database,
  use: (db: Database.Database) => Promise<Result<string>>,
): Promise<Result<string>> => {
  const file = databaseOf(settings);
  if (!existsSync(file)) return err(`There is no data in ${settings.data}. TIGHTROW_DATA names the folder.`);
  let db: Database.Database | null = null;
  try {
    db = open(file);
    return await use(db);
  } catch (error) {
    return err(`The data in ${settings.data} cannot be used: ${whyOf(error)}.`);
  } finally {
    db?.close();
  }
};

const TOOLS: Readonly<Record<string, Tool>> = {
  backup: {
    usage: "backup [file]",
    help: "Writes everything to one file, also while the server runs.",
    run: ({ args: [given], settings, now }) =>
      withDatabase(settings, openForReading, async (db) => {
        const file = given ?? join(settings.data, "backups", `tightrow-${stampOf(now)}.db`);
        if (existsSync(file)) return err(`There is a file ${file} already. Give another name.`);
        await writeBackup(db, file, { atOnce: true });
        return ok(`Backed up to ${file}. It holds whole boards and hashed ways in: keep it private.`);
      }),
  },
  restore: {
    usage: "restore <file>",
    help: "Puts a backup in place. The server must be stopped; what was there is set aside, not deleted.",
    run: async ({ args: [file], settings, now }) => {
      if (file === undefined) return err("Say which backup: restore <file>.");
      const restored = await restoreBackup(file, settings.data, stampOf(now));
      if (!restored.ok) return restored;
      const { setAside } = restored.value;
      const before = setAside === null ? "" : ` What was there before is in ${setAside}.`;
      return ok(
        `Restored ${file}.${before} Start the server: devices that hold later changes send them again by themselves.`,
      );
    },
  },
  boards: {
    usage: "boards",
    help: "Lists the boards with their ids.",
    run: ({ settings }) =>
      withDatabase(settings, openForReading, async (db) => {
        const boards = await listBoards(db);
        const lines = boards.map(
          ({ id, name, season, demo, devices, bytes }) =>
            `${id}  ${name}${demo ? " (demo)" : ""}, season ${season}, ${devices} devices, ${Math.ceil(bytes / 1000)} kB`,
        );
        return ok(lines.length === 0 ? "There are no boards." : lines.join("\n"));
      }),
  },
  export: {
    usage: "export <board id>",
    help: "Prints a board as JSON, which needs no server to be read and can start a new board.",
    run: ({ args: [board], settings, now }) =>
      withDatabase(settings, openForReading, async (db) => {
        if (board === undefined) return err("Say which board: export <board id>. `boards` lists them.");
        const day = now.toISOString().slice(0, 10);
        const json = isDay(day) ? await boardAsJson(db, board, day) : null;
        return json === null ? err(`There is no board ${board}. \`boards\` lists them.`) : ok(json.trimEnd());
      }),
  },
  link: {
    usage: "link <board id>",
    help: `Prints a leader's joining link, good for one device within ${LINK_HOURS} hours: for a band that lost every device and its recovery code.`,
    run: ({ args: [board], settings, now }) =>
      withDatabase(
        settings,
        (file) => new Database(file, { fileMustExist: true }),
        async (db) => {
          const known = (await listBoards(db)).find(({ id }) => id === board);
          if (known === undefined)
            return err(
              board === undefined
                ? "Say which board: link <board id>. `boards` lists them."
                : `There is no board ${board}. \`boards\` lists them.`,
            );
          const secret = mintSecret();
          await sqliteMembers(db, guarded, async (run) => guarded(run)).addLink({
            id: mintId(),
            board: known.id,
            role: "leader",
            secretHash: hashSecret(secret),
            label: "Made by whoever runs the server",
            createdAt: now.getTime(),
            expiresAt: now.getTime() + LINK_HOURS * HOUR_MS,
            revokedAt: null,
            maxUses: 1,
            uses: 0,
            memberId: null,
            gig: null,
          });
          const origin = settings.publicUrl ?? `http://localhost:${settings.port}`;
          return ok(joiningAddress(origin, { board: known.id, secret }));
        },
      ),
  },
};

/** The tool of that name, ready to run; null when there is none. */
export const findTool = (name: string): ((job: Job) => Promise<Result<string>>) | null =>
  Object.hasOwn(TOOLS, name) ? (TOOLS[name]?.run ?? null) : null;

/** Lines for `--help`. */
export const toolsHelp = (): readonly string[] =>
  Object.values(TOOLS).map(({ usage, help }) => `  ${usage}\n      ${help}`);
