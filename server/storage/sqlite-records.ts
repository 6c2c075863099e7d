import type { Database } from "better-sqlite3";
import type { Role } from "#shared/protocol/api.ts";
import type { BoardRecord, DeviceRecord, LinkRecord, Storage } from "./storage.ts";

type Records = Omit<Storage, "append" | "flush" | "load" | "close">;

interface BoardRow {
  id: string;
  name: string;
  demo: number;
  created_at: number;
  retired_at: number | null;
}

interface LinkRow {
  id: string;
  board: string;
  role: Role;
  secret_hash: string;
  label: string;
  created_at: number;
  expires_at: number | null;
  revoked_at: number | null;
}

interface DeviceRow {
  id: string;
  board: string;
  role: Role;
  token_hash: string;
  member_id: string | null;
  created_at: number;
}

/** Boards, links and devices as tables. Writes resolve once they are on the disk: a token that was given out stays good. */
export const sqliteRecords = (
  db: Database,
  guarded: <T>(run: () => T) => T,
  flush: () => Promise<void>,
): Records => {
  const write = async <T>(run: () => T): Promise<T> => {
    const value = guarded(run);
    await flush();
    return value;
  };
  const sql = statements(db);

  return {
    addBoard: (b) => write(() => void sql.addBoard.run({ ...b, demo: b.demo ? 1 : 0 })),
    board: async (id) => guarded(() => boardOf(sql.board.get(id))),
    currentDemo: async () => guarded(() => boardOf(sql.currentDemo.get())),
    retireBoard: (id, at) =>
      write(
        db.transaction(() => {
          sql.retire.run(at, id);
          sql.forgetUpdates.run(id);
        }),
      ),

    addLink: (link) => write(() => void sql.addLink.run(link)),
    linkBySecret: async (hash) => guarded(() => linkOf(sql.linkBySecret.get(hash))),
    links: async (board) => guarded(() => sql.links.all(board).flatMap((row) => linkOf(row) ?? [])),
    revokeLink: (board, id, at) => write(() => sql.revoke.run(at, id, board).changes > 0),

    addDevice: (device) => write(() => void sql.addDevice.run(device)),
    deviceByToken: async (hash) => guarded(() => deviceOf(sql.deviceByToken.get(hash))),
    bindDevice: (id, memberId) => write(() => void sql.bind.run(memberId, id)),
  };
};

const statements = (db: Database) => ({
  addBoard: db.prepare(
    "INSERT INTO boards (id, name, demo, created_at, retired_at) VALUES (@id, @name, @demo, @createdAt, @retiredAt)",
  ),
  board: db.prepare<[string], BoardRow>("SELECT * FROM boards WHERE id = ?"),
  currentDemo: db.prepare<[], BoardRow>(
    "SELECT * FROM boards WHERE demo = 1 AND retired_at IS NULL ORDER BY rowid DESC LIMIT 1",
  ),
  retire: db.prepare("UPDATE boards SET retired_at = coalesce(retired_at, ?) WHERE id = ?"),
  forgetUpdates: db.prepare("DELETE FROM updates WHERE board = ?"),
  addLink: db.prepare(
    `INSERT INTO links (id, board, role, secret_hash, label, created_at, expires_at, revoked_at)
     VALUES (@id, @board, @role, @secretHash, @label, @createdAt, @expiresAt, @revokedAt)`,
  ),
  linkBySecret: db.prepare<[string], LinkRow>("SELECT * FROM links WHERE secret_hash = ?"),
  links: db.prepare<[string], LinkRow>("SELECT * FROM links WHERE board = ? ORDER BY rowid"),
  revoke: db.prepare("UPDATE links SET revoked_at = coalesce(revoked_at, ?) WHERE id = ? AND board = ?"),
  addDevice: db.prepare(
    `INSERT INTO devices (id, board, role, token_hash, member_id, created_at)
     VALUES (@id, @board, @role, @tokenHash, @memberId, @createdAt)`,
  ),
  deviceByToken: db.prepare<[string], DeviceRow>("SELECT * FROM devices WHERE token_hash = ?"),
  bind: db.prepare("UPDATE devices SET member_id = ? WHERE id = ?"),
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
      };

const linkOf = (row: LinkRow | undefined): LinkRecord | null =>
  row === undefined
    ? null
    : {
        id: row.id,
        board: row.board,
        role: row.role,
        secretHash: row.secret_hash,
        label: row.label,
        createdAt: row.created_at,
        expiresAt: row.expires_at,
        revokedAt: row.revoked_at,
      };

const deviceOf = (row: DeviceRow | undefined): DeviceRecord | null =>
  row === undefined
    ? null
    : {
        id: row.id,
        board: row.board,
        role: row.role,
        tokenHash: row.token_hash,
        memberId: row.member_id,
        createdAt: row.created_at,
      };
