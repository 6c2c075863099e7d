import type { Database } from "better-sqlite3";
import type { Role } from "#shared/protocol/api.ts";
import type { BoardTables, DeviceRecord, LinkRecord, PrivateValue } from "./board-tables.ts";
import type { Guarded, Write } from "./sqlite-write.ts";

type Members = Pick<
  BoardTables,
  | "addLink"
  | "linkBySecret"
  | "links"
  | "revokeLink"
  | "countUse"
  | "addDevice"
  | "deviceByToken"
  | "device"
  | "devices"
  | "changeDevice"
  | "touchDevice"
  | "privateValues"
  | "setPrivate"
  | "eraseMember"
>;

interface LinkRow {
  id: string;
  board: string;
  role: Role;
  secret_hash: string;
  label: string;
  created_at: number;
  expires_at: number | null;
  revoked_at: number | null;
  max_uses: number | null;
  uses: number;
  member_id: string | null;
  gig: string | null;
}

interface DeviceRow {
  id: string;
  board: string;
  role: Role;
  token_hash: string;
  member_id: string | null;
  created_at: number;
  name: string;
  last_seen_at: number | null;
  revoked_at: number | null;
  expires_at: number | null;
  link: string | null;
  gig: string | null;
  confirmed: number;
}

/** Links, devices and private values as tables. */
export const sqliteMembers = (db: Database, guarded: Guarded, write: Write): Members => {
  const sql = statements(db);

  const eraseMember = db.transaction((board: string, member: string, at: number) => {
    sql.erasePrivate.run(board, member);
    sql.revokeLinksOf.run(at, board, member);
    sql.revokeDevicesOf.run(at, board, member);
  });

  return {
    addLink: (link) => write(() => void sql.addLink.run(link)),
    linkBySecret: async (hash) => guarded(() => linkOf(sql.linkBySecret.get(hash))),
    links: async (board) => guarded(() => sql.links.all(board).flatMap((row) => linkOf(row) ?? [])),
    revokeLink: (board, id, at) => write(() => sql.revokeLink.run(at, id, board).changes > 0),
    countUse: (id) => write(() => sql.countUse.run(id).changes > 0),

    addDevice: (device) =>
      write(() => void sql.addDevice.run({ ...device, confirmed: device.confirmed ? 1 : 0 })),
    deviceByToken: async (hash) => guarded(() => deviceOf(sql.deviceByToken.get(hash))),
    device: async (board, id) => guarded(() => deviceOf(sql.device.get(id, board))),
    devices: async (board) => guarded(() => sql.devices.all(board).flatMap((row) => deviceOf(row) ?? [])),
    changeDevice: (board, id, changes) =>
      write(
        () =>
          sql.changeDevice.run({
            id,
            board,
            role: changes.role ?? null,
            setsMember: changes.memberId === undefined ? 0 : 1,
            memberId: changes.memberId ?? null,
            confirmed: changes.confirmed === undefined ? null : Number(changes.confirmed),
            name: changes.name ?? null,
            revokedAt: changes.revokedAt ?? null,
          }).changes > 0,
      ),
    touchDevice: (id, at) => guarded(() => void sql.touch.run(at, id)),

    privateValues: async (board, member) => guarded(() => sql.privateValues.all(board, member)),
    setPrivate: (board, member, key, value, at) =>
      write(() =>
        value === null
          ? void sql.dropPrivate.run(board, member, key)
          : void sql.setPrivate.run(board, member, key, value, at),
      ),
    eraseMember: (board, member, at) => write(() => eraseMember(board, member, at)),
  };
};

const statements = (db: Database) => ({
  addLink: db.prepare(
    `INSERT INTO links
       (id, board, role, secret_hash, label, created_at, expires_at, revoked_at, max_uses, uses, member_id, gig)
     VALUES (@id, @board, @role, @secretHash, @label, @createdAt, @expiresAt, @revokedAt, @maxUses, @uses, @memberId, @gig)`,
  ),
  linkBySecret: db.prepare<[string], LinkRow>("SELECT * FROM links WHERE secret_hash = ?"),
  links: db.prepare<[string], LinkRow>("SELECT * FROM links WHERE board = ? ORDER BY rowid"),
  revokeLink: db.prepare("UPDATE links SET revoked_at = coalesce(revoked_at, ?) WHERE id = ? AND board = ?"),
  countUse: db.prepare(
    "UPDATE links SET uses = uses + 1 WHERE id = ? AND (max_uses IS NULL OR uses < max_uses)",
  ),
  revokeLinksOf: db.prepare(
    "UPDATE links SET revoked_at = coalesce(revoked_at, ?) WHERE board = ? AND member_id = ?",
  ),
  addDevice: db.prepare(
    `INSERT INTO devices
       (id, board, role, token_hash, member_id, created_at, name, last_seen_at, revoked_at, expires_at, link, gig, confirmed)
     VALUES (@id, @board, @role, @tokenHash, @memberId, @createdAt, @name, @lastSeenAt, @revokedAt, @expiresAt, @link, @gig, @confirmed)`,
  ),
  deviceByToken: db.prepare<[string], DeviceRow>("SELECT * FROM devices WHERE token_hash = ?"),
  device: db.prepare<[string, string], DeviceRow>("SELECT * FROM devices WHERE id = ? AND board = ?"),
  devices: db.prepare<[string], DeviceRow>("SELECT * FROM devices WHERE board = ? ORDER BY rowid"),
  changeDevice: db.prepare(
    `UPDATE devices SET role = coalesce(@role, role),
       member_id = CASE @setsMember WHEN 1 THEN @memberId ELSE member_id END,
       confirmed = coalesce(@confirmed, confirmed), name = coalesce(@name, name),
       revoked_at = coalesce(revoked_at, @revokedAt)
     WHERE id = @id AND board = @board`,
  ),
  touch: db.prepare("UPDATE devices SET last_seen_at = ? WHERE id = ?"),
  revokeDevicesOf: db.prepare(
    `UPDATE devices SET revoked_at = coalesce(revoked_at, ?), name = '' WHERE board = ? AND member_id = ?`,
  ),
  privateValues: db.prepare<[string, string], PrivateValue>(
    "SELECT key, value, at FROM private_values WHERE board = ? AND member = ? ORDER BY key",
  ),
  setPrivate: db.prepare(
    `INSERT INTO private_values (board, member, key, value, at) VALUES (?, ?, ?, ?, ?)
     ON CONFLICT (board, member, key) DO UPDATE SET value = excluded.value, at = excluded.at`,
  ),
  dropPrivate: db.prepare("DELETE FROM private_values WHERE board = ? AND member = ? AND key = ?"),
  erasePrivate: db.prepare("DELETE FROM private_values WHERE board = ? AND member = ?"),
});

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
        maxUses: row.max_uses,
        uses: row.uses,
        memberId: row.member_id,
        gig: row.gig,
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
        name: row.name,
        lastSeenAt: row.last_seen_at,
        revokedAt: row.revoked_at,
        expiresAt: row.expires_at,
        link: row.link,
        gig: row.gig,
        confirmed: row.confirmed === 1,
      };
