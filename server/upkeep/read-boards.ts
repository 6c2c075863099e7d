import Database from "better-sqlite3";
import type * as Y from "yjs";
import type { Id } from "#shared/board/ids.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { exportBoard } from "#shared/exchange/board-json.ts";
import type { Day } from "#shared/lib/calendar.ts";
import { createLog } from "../log.ts";
import { replay } from "../rooms/replay.ts";
import { sqliteLog } from "../storage/sqlite-log.ts";
import { guarded } from "../storage/sqlite-write.ts";

/** A board in a database, as the person who runs the server sees it. */
export interface BoardLine {
  readonly id: Id;
  readonly name: string;
  readonly season: number;
  readonly demo: boolean;
  readonly devices: number;
  /** Bytes of the open season's document. */
  readonly bytes: number;
}

interface Row {
  id: string;
  document: string;
  season: number;
  demo: number;
  name: string;
  devices: number;
}

/** Boards that are neither erased nor retired, oldest first. */
export const listBoards = async (db: Database.Database): Promise<readonly BoardLine[]> => {
  const log = logOf(db);
  const rows = db
    .prepare<[], Row>(
      `SELECT id, document, season, demo, name,
         (SELECT count(*) FROM devices WHERE board = boards.id AND revoked_at IS NULL) AS devices
       FROM boards WHERE erased_at IS NULL AND retired_at IS NULL ORDER BY created_at`,
    )
    .all();
  return Promise.all(
    rows.map(async ({ document, demo, ...row }) => ({
      ...row,
      demo: demo === 1,
      bytes: (await log.usage(document)).bytes,
    })),
  );
};

/** The board's open season as the JSON that a board imports; null when there is no such board. */
export const boardAsJson = async (db: Database.Database, board: Id, day: Day): Promise<string | null> => {
  const row = db
    .prepare<[string], Pick<Row, "document">>(
      "SELECT document FROM boards WHERE id = ? AND erased_at IS NULL",
    )
    .get(board);
  if (row === undefined) return null;
  const quiet = createLog("error", (line) => process.stderr.write(line), Date.now);
  const doc: Y.Doc = replay(await logOf(db).load(row.document), quiet);
  return exportBoard(createBoardDocument(doc), day).text;
};

/** Opens a database that a server may be writing to. Throws the system's error. */
export const openForReading = (file: string): Database.Database =>
  new Database(file, { readonly: true, fileMustExist: true });

const logOf = (db: Database.Database) => sqliteLog(db, guarded, async (run) => guarded(run));
