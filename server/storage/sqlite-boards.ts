import type { Database } from "better-sqlite3";
import type { BoardRecord, BoardTables, SeasonRecord } from "./board-tables.ts";
import { forgetDocument } from "./sqlite-log.ts";
import type { Guarded, Write } from "./sqlite-write.ts";
import { StorageRefusal } from "./storage.ts";
import type { NewUpdate } from "./update-log.ts";

type Boards = Pick<
  BoardTables,
  | "addBoard"
  | "board"
  | "currentDemo"
  | "retireBoard"
  | "eraseBoard"
  | "boardByRecovery"
  | "setRecovery"
  | "seasons"
  | "seasonOf"
  | "openSeason"
>;

interface BoardRow {
  id: string;
  name: string;
  demo: number;
  created_at: number;
  retired_at: number | null;
  erased_at: number | null;
  document: string;
  season: number;
  recovery_hash: string | null;
}

interface SeasonRow {
  document: string;
  board: string;
  season: number;
  opened_at: number;
  closed_at: number | null;
}

/** Boards and their seasons as tables. */
export const sqliteBoards = (db: Database, guarded: Guarded, write: Write): Boards => {
  const sql = statements(db);

  const add = db.transaction((board: BoardRecord) => {
    sql.addBoard.run({ ...board, demo: board.demo ? 1 : 0 });
    sql.addSeason.run(board.document, board.id, board.season, board.createdAt);
  });

  const forgetLogs = (board: string): void => {
    for (const { document } of sql.seasons.all(board)) forgetDocument(db, document);
  };

  const erase = db.transaction((id: string, at: number) => {
    sql.erase.run(at, id);
    forgetLogs(id);
    for (const table of ["links", "private_values"])
      db.prepare(`DELETE FROM ${table} WHERE board = ?`).run(id);
    sql.bareDevices.run(id);
  });

  const openSeason = db.transaction(
    (board: string, closing: string, first: NewUpdate, erasing: boolean): SeasonRecord => {
      const season = (sql.board.get(board)?.season ?? 0) + 1;
      if (sql.moveOn.run(first.document, season, board, closing).changes === 0)
        throw new StorageRefusal(`The season of ${closing} is closed already`);
      if (erasing) forgetLogs(board);
      sql.closeSeason.run(first.at, closing);
      sql.addSeason.run(first.document, board, season, first.at);
      sql.firstRow.run(first);
      return { board, document: first.document, season, openedAt: first.at, closedAt: null };
    },
  );

  return {
    addBoard: (board) => write(() => add(board)),
    board: async (id) => guarded(() => boardOf(sql.board.get(id))),
    currentDemo: async () => guarded(() => boardOf(sql.currentDemo.get())),
    retireBoard: (id, at) =>
      write(
        db.transaction(() => {
          sql.retire.run(at, id);
          forgetLogs(id);
        }),
      ),
    eraseBoard: (id, at) => write(() => erase(id, at)),
    boardByRecovery: async (hash) => guarded(() => boardOf(sql.byRecovery.get(hash))),
    setRecovery: (board, hash) => write(() => void sql.setRecovery.run(hash, board)),
    seasons: async (board) => guarded(() => sql.seasons.all(board).map(seasonOf)),
    seasonOf: async (document) =>
      guarded(() => {
        const row = sql.season.get(document);
        return row === undefined ? null : seasonOf(row);
      }),
    openSeason: (board, closing, first, erasing) => write(() => openSeason(board, closing, first, erasing)),
  };
};

const statements = (db: Database) => ({
  addBoard: db.prepare(
    `INSERT INTO boards (id, name, demo, created_at, retired_at, erased_at, document, season, recovery_hash)
     VALUES (@id, @name, @demo, @createdAt, @retiredAt, @erasedAt, @document, @season, @recoveryHash)`,
  ),
  board: db.prepare<[string], BoardRow>("SELECT * FROM boards WHERE id = ?"),
  currentDemo: db.prepare<[], BoardRow>(
    "SELECT * FROM boards WHERE demo = 1 AND retired_at IS NULL ORDER BY rowid DESC LIMIT 1",
  ),
  byRecovery: db.prepare<[string], BoardRow>("SELECT * FROM boards WHERE recovery_hash = ?"),
  retire: db.prepare("UPDATE boards SET retired_at = coalesce(retired_at, ?) WHERE id = ?"),
  erase: db.prepare(
    "UPDATE boards SET erased_at = coalesce(erased_at, ?), name = '', recovery_hash = NULL WHERE id = ?",
  ),
  bareDevices: db.prepare("UPDATE devices SET name = '', member_id = NULL WHERE board = ?"),
  setRecovery: db.prepare("UPDATE boards SET recovery_hash = ? WHERE id = ?"),
  addSeason: db.prepare("INSERT INTO seasons (document, board, season, opened_at) VALUES (?, ?, ?, ?)"),
  closeSeason: db.prepare("UPDATE seasons SET closed_at = ? WHERE document = ?"),
  season: db.prepare<[string], SeasonRow>("SELECT * FROM seasons WHERE document = ?"),
  seasons: db.prepare<[string], SeasonRow>("SELECT * FROM seasons WHERE board = ? ORDER BY season"),
  moveOn: db.prepare("UPDATE boards SET document = ?, season = ? WHERE id = ? AND document = ?"),
  firstRow: db.prepare(
    "INSERT INTO updates (document, device, member, at, bytes) VALUES (@document, @device, @member, @at, @bytes)",
  ),
});

const boardOf = (row: BoardRow | undefined): BoardRecord | null =>
  row === undefined
    ? null
    : {
        id: row.id,
        name: row.name,
        demo: row.demo === 1,
        createdAt: row.created_at,
        retiredAt: row.retired_at,
        erasedAt: row.erased_at,
        document: row.document,
        season: row.season,
        recoveryHash: row.recovery_hash,
      };

const seasonOf = (row: SeasonRow): SeasonRecord => ({
  board: row.board,
  document: row.document,
  season: row.season,
  openedAt: row.opened_at,
  closedAt: row.closed_at,
});
