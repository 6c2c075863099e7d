import { randomInt } from "node:crypto";
import * as Y from "yjs";
import type { Id } from "#shared/board/ids.ts";
import type { BoardDocument } from "#shared/document/board-document.ts";
import { erasePerson } from "#shared/document/erase-person.ts";
import { finishedMigrations, unknownMigrations } from "#shared/document/migrations/migrate.ts";
import { type DocumentEntry, squash } from "#shared/document/squash.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { Durable, SeasonClosed, SeasonInfo } from "#shared/protocol/api.ts";
import type { ApiErrorCode } from "#shared/protocol/api-errors.ts";
import type { Log } from "../log.ts";
import { replay } from "../rooms/replay.ts";
import type { Storage } from "../storage/storage.ts";
import type { DeviceSession } from "./access-policy.ts";
import type { Devices } from "./devices.ts";
import type { InTurn } from "./in-turn.ts";
import type { LiveRooms } from "./live-rooms.ts";
import { mintId } from "./tokens.ts";

/**
 * A board's documents, one after another. Governing rule: a document is closed for good once the next one is on the
 * disk, in one step; until then it goes on.
 */
export interface Seasons {
  list(board: Id): Promise<readonly SeasonInfo[]>;
  /** Closes the season of this document of the board; one that was closed before is left as it is. */
  close(asking: DeviceSession, document: Id): Promise<Result<SeasonClosed, ApiErrorCode>>;
  /** How far these clients' changes are in a closed document of the board; null when it is not closed or not kept. */
  durable(board: Id, document: Id, clients: readonly number[]): Promise<Durable["clocks"] | null>;
  /** Goes on with a document without the person, and forgets every document with them. */
  erasePerson(asking: DeviceSession, member: Id): Promise<Result<SeasonClosed, ApiErrorCode>>;
  /** Erases the whole board, if `name` is what it is called. */
  eraseBoard(asking: DeviceSession, name: string): Promise<Result<null, ApiErrorCode>>;
}

export interface SeasonsParts {
  readonly storage: Storage;
  readonly rooms: LiveRooms;
  readonly devices: Devices;
  /** One key per board. */
  readonly inTurn: InTurn;
  readonly clock: () => number;
  readonly log: Log;
}

/** Yjs client ids are 32 bits. */
const CLIENTS = 2 ** 32;

interface Next {
  readonly erasing: boolean;
  readonly rewrite?: (entries: readonly DocumentEntry[]) => readonly DocumentEntry[];
}

export const createSeasons = (parts: SeasonsParts): Seasons => {
  const { storage, rooms, devices, inTurn, clock, log } = parts;
  const openNext = async (
    board: Id,
    closing: Id,
    { erasing, rewrite }: Next,
  ): Promise<Result<SeasonClosed, ApiErrorCode>> => {
    // What a newer release wrote, this one cannot carry over.
    if (await rooms.read(closing, isNewer)) return err("newer-board");
    return rooms.freeze(closing, 4409, async (doc) => {
      const bytesBefore = (await storage.usage(closing)).bytes;
      const bytes = squash(doc, freshClient(doc), rewrite);
      const first = { document: mintId(), device: "server", member: null, at: clock(), bytes };
      const { document, season } = await storage.openSeason(board, closing, first, erasing);
      return ok({ document, season, bytesBefore, bytesAfter: bytes.length });
    });
  };

  /** What closing this document led to, when it was closed. */
  const closedBefore = async (board: Id, document: Id): Promise<Result<SeasonClosed, ApiErrorCode>> => {
    const seasons = await storage.seasons(board);
    const next = seasons[seasons.findIndex((one) => one.document === document) + 1];
    if (next === undefined || seasons[0]?.document === next.document) return err("not-found");
    const [before, after] = await Promise.all([storage.usage(document), storage.usage(next.document)]);
    const { document: opened, season } = next;
    return ok({ document: opened, season, bytesBefore: before.bytes, bytesAfter: after.bytes });
  };

  /** The board's open document now; the session was admitted a moment ago. */
  const openDocument = async ({ board, document }: DeviceSession): Promise<Id> =>
    (await storage.board(board))?.document ?? document;

  return {
    list: async (board) => {
      const seasons = await storage.seasons(board);
      return Promise.all(
        seasons.map(async ({ document, season, openedAt, closedAt }) => {
          const { bytes, archivedBytes } = await storage.usage(document);
          return { document, season, openedAt, closedAt, bytes, archivedBytes };
        }),
      );
    },
    close: (asking, document) =>
      inTurn(asking.board, async () =>
        (await openDocument(asking)) === document
          ? openNext(asking.board, document, { erasing: false })
          : closedBefore(asking.board, document),
      ),
    durable: async (board, document, clients) => {
      const season = await storage.seasonOf(document);
      if (season?.board !== board || season.closedAt === null) return null;
      const rows = await storage.load(document);
      if (rows.length === 0) return null;
      const doc = replay(rows, log);
      const clocks = clients.map((client) => ({ client, clock: Y.getState(doc.store, client) }));
      doc.destroy();
      return clocks;
    },
    erasePerson: (asking, member) =>
      inTurn(asking.board, async () => {
        const { board } = asking;
        const document = await openDocument(asking);
        const theirs = (await storage.devices(board)).filter(({ memberId }) => memberId === member);
        const known = await rooms.read(document, (there) => isNamed(there, member));
        if (!known && theirs.length === 0) return err("not-found");
        if (await rooms.read(document, isNewer)) return err("newer-board");
        if (!(await devices.leadsWithout(board, ({ memberId }) => memberId === member)))
          return err("last-leader");
        await storage.eraseMember(board, member, clock());
        for (const { id } of theirs) rooms.closeDevice(id, 4411);
        return openNext(board, document, {
          erasing: true,
          rewrite: (entries) => erasePerson(entries, member),
        });
      }),
    eraseBoard: (asking, name) =>
      inTurn(asking.board, async () => {
        const { board, boardName } = asking;
        const document = await openDocument(asking);
        const called = await rooms.read(document, (there) => there.get("band", "name"));
        const current = typeof called === "string" && plain(called) !== "" ? called : boardName;
        if (plain(name) !== plain(current)) return err("name-differs");
        return rooms.freeze(document, 4415, async () => {
          // A demo that is gone must not be opened to the next visitor.
          if ((await storage.board(board))?.demo) await storage.retireBoard(board, clock());
          await storage.eraseBoard(board, clock());
          return ok(null);
        });
      }),
  };
};

/** People type spaces and accents in more than one way. */
const plain = (name: string): string => name.normalize("NFC").trim().replace(/\s+/g, " ");

const isNewer = (document: BoardDocument): boolean =>
  unknownMigrations(finishedMigrations(document)).length > 0;

const isNamed = (document: BoardDocument, member: Id): boolean => {
  for (const [key] of document.entries("people")) if (key.startsWith(`${member}/`)) return true;
  return false;
};

/** A client id that never wrote to the document. */
const freshClient = (doc: Y.Doc): number => {
  for (;;) {
    const client = randomInt(CLIENTS);
    if (!doc.store.clients.has(client)) return client;
  }
};
