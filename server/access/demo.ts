import * as Y from "yjs";
import type { Id } from "#shared/board/ids.ts";
import { isTimeZone } from "#shared/lib/calendar.ts";
import type { BoardGrant, NewLink } from "#shared/protocol/api.ts";
import type { BoardRecord } from "../storage/board-tables.ts";
import type { Storage } from "../storage/storage.ts";
import { createInTurn } from "./in-turn.ts";
import type { Membership } from "./membership.ts";

/** Writes the demo band into an empty document, with dates around `now` (ms) in `timeZone` (IANA name). */
export type SeedDemo = (doc: Y.Doc, now: number, timeZone: string) => void;

/** The one demo board that visitors share until somebody starts it afresh. */
export interface Demo {
  /** A leader's device on the demo board, which is made when there is none. */
  enter(): Promise<BoardGrant>;
  /** Retires the demo board and makes a new one; resolves to a leader's device on it. */
  restart(): Promise<BoardGrant>;
  /** True for the demo board that is open now. */
  isCurrent(board: Id): Promise<boolean>;
  /** Fresh joining links for the person who starts the server; they expire. */
  startLinks(): Promise<{ readonly leader: NewLink; readonly member: NewLink }>;
}

export interface DemoParts {
  readonly storage: Storage;
  readonly membership: Membership;
  readonly seedDemo: SeedDemo;
  readonly clock: () => number;
  /** Called before a demo board is retired: its visitors must leave first. */
  readonly onRetire: (document: Id) => void;
}

const DEMO_NAME = "Six Spare Fuses";
const START_LINK_MS = 24 * 3_600_000;

/** This machine's time zone; UTC where it does not know one (a container with an empty TZ). */
const hereZone = (): string => {
  const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
  return isTimeZone(timeZone) ? timeZone : "UTC";
};

export const createDemo = ({ storage, membership, seedDemo, clock, onRetire }: DemoParts): Demo => {
  const turns = createInTurn();
  /** One at a time, or two first visitors would make two demo boards. */
  const inTurn = <T>(run: () => Promise<T>): Promise<T> => turns("demo", run);

  const plant = async (): Promise<BoardRecord> => {
    const doc = new Y.Doc();
    seedDemo(doc, clock(), hereZone());
    const bytes = Y.encodeStateAsUpdate(doc);
    doc.destroy();
    return membership.createBoard(DEMO_NAME, bytes);
  };

  const current = async (): Promise<BoardRecord> => (await storage.currentDemo()) ?? (await plant());

  const letIn = async (board: BoardRecord): Promise<BoardGrant> =>
    (await membership.admitDevice(board, "leader")).grant;

  return {
    enter: () => inTurn(async () => letIn(await current())),
    restart: () =>
      inTurn(async () => {
        const old = await storage.currentDemo();
        if (old !== null) {
          await storage.retireBoard(old.id, clock());
          onRetire(old.document);
        }
        return letIn(await plant());
      }),
    isCurrent: async (board) => (await storage.currentDemo())?.id === board,
    startLinks: () =>
      inTurn(async () => {
        const { id } = await current();
        const expiresAt = clock() + START_LINK_MS;
        const label = "Printed when the server started";
        return {
          leader: await membership.createLink(id, { role: "leader", expiresAt, label }),
          member: await membership.createLink(id, { role: "member", expiresAt, label }),
        };
      }),
  };
};
