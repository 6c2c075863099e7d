/**
 * What the screens need of the server and of this device's memory: bands this device knows, ways in, links.
 * Governing rule: screens see no token and no network; whatever goes wrong comes back as a sentence for people.
 * Implemented by client/app over client/sync.
 */
import { createContext, useContext, useSyncExternalStore } from "react";
import type { Id } from "#shared/board/ids.ts";
import type { BoardFile } from "#shared/exchange/board-json.ts";
import type { Result } from "#shared/lib/result.ts";
import type { CreateLink, Link, NewLink, Role } from "#shared/protocol/api.ts";

/** Why something did not work out. */
export interface AccessProblem {
  /** One sentence that says what to do. */
  readonly message: string;
  /** True when the same try may work later. */
  readonly retriable: boolean;
}

export type AccessAnswer<T> = Promise<Result<T, AccessProblem>>;

/** A band this device has been let into. */
export interface KnownBand {
  readonly board: Id;
  readonly name: string;
  readonly role: Role;
  /** The person this device belongs to; null until somebody picked their name. */
  readonly member: Id | null;
  /** Device clock, ms. */
  readonly lastOpened: number;
}

/** For a caller that would rather wait for a signal than be refused. */
export interface Waiting {
  /** Called with a sentence while the server cannot be reached; the try is repeated by itself. */
  readonly onWaiting: (sentence: string) => void;
  /** Stops waiting. */
  readonly signal: AbortSignal;
}

/** Where to go first on a board: the board, setting up a new band, or picking one's name. */
export type FirstPlace = "board" | "start" | "who";

/** Where a device goes that was let in: a member who has no name yet picks one; everybody else sees the board. */
export const firstPlaceOf = ({ role, member }: Pick<KnownBand, "role" | "member">): FirstPlace =>
  role === "member" && member === null ? "who" : "board";

export interface BandAccess {
  /** False when nothing outlives the page: private window, storage forbidden or full. */
  readonly remembers: () => boolean;
  /** Last opened first; the same reference until something changes. */
  readonly known: () => readonly KnownBand[];
  readonly subscribe: (listener: () => void) => () => void;
  /** A new, empty board with this device as its leader. */
  readonly createBoard: (name: string) => AccessAnswer<KnownBand>;
  /** A new board that holds what the file holds. */
  readonly startFrom: (file: BoardFile) => AccessAnswer<KnownBand>;
  /** Exchanges a link's secret. A device that may already do more on that board keeps what it may. */
  readonly joinWith: (secret: string, waiting?: Waiting) => AccessAnswer<KnownBand>;
  readonly openDemo: () => AccessAnswer<KnownBand>;
  /** Starts the demo afresh for everybody in it. */
  readonly resetDemo: (board: Id) => AccessAnswer<KnownBand>;
  /** Says whose device this is. */
  readonly claimMember: (board: Id, member: Id) => AccessAnswer<null>;
  /** Oldest first; for leaders. */
  readonly links: (board: Id) => AccessAnswer<readonly Link[]>;
  readonly createLink: (board: Id, wanted: CreateLink) => AccessAnswer<NewLink>;
  readonly revokeLink: (board: Id, link: Id) => AccessAnswer<null>;
  /** Forgets the way in and deletes this device's copy. What was not sent yet is lost. */
  readonly forget: (board: Id) => Promise<void>;
  /** Scheme, host and port under which others open Tightrow. */
  readonly origin: string;
}

const BandAccessContext = createContext<BandAccess | null>(null);

/** Gives the screens below it their access: `<BandAccessProvider value={…}>`. */
export const BandAccessProvider = BandAccessContext;

/** The access of the screen. Throws outside a BandAccessProvider. */
export const useBandAccess = (): BandAccess => {
  const access = useContext(BandAccessContext);
  if (access === null) throw new Error("No band access: this screen must stand inside a BandAccessProvider.");
  return access;
};

/** Bands this device knows, last opened first. */
export const useKnownBands = (): readonly KnownBand[] => {
  const access = useBandAccess();
  return useSyncExternalStore(access.subscribe, access.known);
};
