import type { BoardRecord, DeviceRecord, LinkRecord, PrivateValue, SeasonRecord } from "./board-tables.ts";
import { createMemoryLog } from "./memory-log.ts";
import { type Storage, StorageRefusal } from "./storage.ts";

/** A storage that forgets everything with the process: for tests, benchmarks and trying things out. */
export const createMemoryStorage = (): Storage => {
  const { close, ...log } = createMemoryLog();
  const boards = new Map<string, BoardRecord>();
  const seasons = new Map<string, SeasonRecord>();
  const links = new Map<string, LinkRecord>();
  const devices = new Map<string, DeviceRecord>();
  const privates = new Map<string, Map<string, PrivateValue>>();

  const addOnce = <R extends { readonly id: string }>(table: Map<string, R>, record: R) => {
    if (table.has(record.id)) throw new StorageRefusal(`There is already a record ${record.id}`);
    table.set(record.id, record);
  };
  const change = <R>(table: Map<string, R>, id: string, changes: (record: R) => Partial<R>): void => {
    const record = table.get(id);
    if (record !== undefined) table.set(id, { ...record, ...changes(record) });
  };
  const seasonsOf = (board: string): SeasonRecord[] =>
    [...seasons.values()].filter((season) => season.board === board);
  const forgetLogs = async (board: string): Promise<void> => {
    for (const { document } of seasonsOf(board)) await log.forget(document);
  };
  const ofBoard = <R extends { readonly board: string }>(table: Map<string, R>, board: string): R[] =>
    [...table.values()].filter((record) => record.board === board);
  const dropOf = <R extends { readonly board: string }>(table: Map<string, R>, board: string): void => {
    for (const [id, record] of table) if (record.board === board) table.delete(id);
  };
  const privatesOf = (board: string, member: string): string => JSON.stringify([board, member]);

  return {
    ...log,

    async addBoard(board) {
      addOnce(boards, board);
      const { id, document, season, createdAt } = board;
      seasons.set(document, { board: id, document, season, openedAt: createdAt, closedAt: null });
    },
    board: async (id) => boards.get(id) ?? null,
    currentDemo: async () => [...boards.values()].findLast((b) => b.demo && b.retiredAt === null) ?? null,
    async retireBoard(id, at) {
      change(boards, id, ({ retiredAt }) => ({ retiredAt: retiredAt ?? at }));
      await forgetLogs(id);
    },
    async eraseBoard(id, at) {
      change(boards, id, ({ erasedAt }) => ({ erasedAt: erasedAt ?? at, name: "", recoveryHash: null }));
      await forgetLogs(id);
      dropOf(links, id);
      for (const key of privates.keys()) if (JSON.parse(key)[0] === id) privates.delete(key);
      for (const { id: device } of ofBoard(devices, id))
        change(devices, device, () => ({ name: "", memberId: null }));
    },
    boardByRecovery: async (hash) =>
      [...boards.values()].find(({ recoveryHash }) => recoveryHash === hash) ?? null,
    setRecovery: async (board, recoveryHash) => change(boards, board, () => ({ recoveryHash })),

    seasons: async (board) => seasonsOf(board),
    seasonOf: async (document) => seasons.get(document) ?? null,
    async openSeason(board, closing, first, erasing) {
      const record = boards.get(board);
      if (record?.document !== closing)
        throw new StorageRefusal(`The season of ${closing} is closed already`);
      const { document, at } = first;
      const earlier = seasonsOf(board);
      const next = { board, document, season: record.season + 1, openedAt: at, closedAt: null };
      change(boards, board, () => ({ document, season: next.season }));
      change(seasons, closing, () => ({ closedAt: at }));
      seasons.set(document, next);
      log.append(first);
      if (erasing) for (const season of earlier) await log.forget(season.document);
      return next;
    },

    addLink: async (link) => addOnce(links, link),
    linkBySecret: async (hash) => [...links.values()].find((link) => link.secretHash === hash) ?? null,
    links: async (board) => ofBoard(links, board),
    async revokeLink(board, id, at) {
      if (links.get(id)?.board !== board) return false;
      change(links, id, ({ revokedAt }) => ({ revokedAt: revokedAt ?? at }));
      return true;
    },
    async countUse(id) {
      const link = links.get(id);
      if (link === undefined || (link.maxUses !== null && link.uses >= link.maxUses)) return false;
      change(links, id, ({ uses }) => ({ uses: uses + 1 }));
      return true;
    },

    addDevice: async (device) => addOnce(devices, device),
    deviceByToken: async (hash) => [...devices.values()].find((device) => device.tokenHash === hash) ?? null,
    device: async (board, id) => {
      const device = devices.get(id);
      return device?.board === board ? device : null;
    },
    devices: async (board) => ofBoard(devices, board),
    async changeDevice(board, id, changes) {
      if (devices.get(id)?.board !== board) return false;
      change(devices, id, ({ revokedAt }) => ({
        ...changes,
        revokedAt: revokedAt ?? changes.revokedAt ?? null,
      }));
      return true;
    },
    touchDevice: (id, at) => change(devices, id, () => ({ lastSeenAt: at })),

    privateValues: async (board, member) =>
      [...(privates.get(privatesOf(board, member))?.values() ?? [])].sort((a, b) => (a.key < b.key ? -1 : 1)),
    async setPrivate(board, member, key, value, at) {
      const id = privatesOf(board, member);
      const values = privates.get(id) ?? new Map<string, PrivateValue>();
      if (value === null) values.delete(key);
      else values.set(key, { key, value, at });
      privates.set(id, values);
    },
    async eraseMember(board, member, at) {
      privates.delete(privatesOf(board, member));
      for (const { id, memberId } of ofBoard(links, board))
        if (memberId === member) change(links, id, ({ revokedAt }) => ({ revokedAt: revokedAt ?? at }));
      for (const { id, memberId } of ofBoard(devices, board))
        if (memberId === member)
          change(devices, id, ({ revokedAt }) => ({ revokedAt: revokedAt ?? at, name: "" }));
    },

    size: () => 0,
    async close() {
      close();
    },
  };
};
