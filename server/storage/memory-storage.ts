import {
  type BoardRecord,
  type DeviceRecord,
  type LinkRecord,
  type Storage,
  StorageRefusal,
  type StoredUpdate,
} from "./storage.ts";

/** A storage that forgets everything with the process: for tests, benchmarks and trying things out. */
export const createMemoryStorage = (): Storage => {
  const log = new Map<string, StoredUpdate[]>();
  const boards = new Map<string, BoardRecord>();
  const links = new Map<string, LinkRecord>();
  const devices = new Map<string, DeviceRecord>();
  let seq = 0;
  let closed = false;

  const addOnce = <R extends { readonly id: string }>(table: Map<string, R>, record: R) => {
    if (table.has(record.id)) throw new StorageRefusal(`There is already a record ${record.id}`);
    table.set(record.id, record);
  };

  return {
    append(update) {
      if (closed) throw new StorageRefusal("The storage is closed");
      seq += 1;
      const rows = log.get(update.board) ?? [];
      rows.push({ ...update, bytes: update.bytes.slice(), seq });
      log.set(update.board, rows);
      return seq;
    },
    async flush() {
      if (closed) throw new StorageRefusal("The storage is closed");
    },
    load: async (board) => [...(log.get(board) ?? [])],

    addBoard: async (board) => addOnce(boards, board),
    board: async (id) => boards.get(id) ?? null,
    currentDemo: async () => [...boards.values()].findLast((b) => b.demo && b.retiredAt === null) ?? null,
    async retireBoard(id, at) {
      const board = boards.get(id);
      if (board === undefined) return;
      boards.set(id, { ...board, retiredAt: board.retiredAt ?? at });
      log.delete(id);
    },

    addLink: async (link) => addOnce(links, link),
    linkBySecret: async (hash) => [...links.values()].find((link) => link.secretHash === hash) ?? null,
    links: async (board) => [...links.values()].filter((link) => link.board === board),
    async revokeLink(board, id, at) {
      const link = links.get(id);
      if (link === undefined || link.board !== board) return false;
      links.set(id, { ...link, revokedAt: link.revokedAt ?? at });
      return true;
    },

    addDevice: async (device) => addOnce(devices, device),
    deviceByToken: async (hash) => [...devices.values()].find((device) => device.tokenHash === hash) ?? null,
    async bindDevice(id, memberId) {
      const device = devices.get(id);
      if (device !== undefined) devices.set(id, { ...device, memberId });
    },

    async close() {
      closed = true;
    },
  };
};
