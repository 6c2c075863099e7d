/**
 * What the screens need of the server and of this device's memory: bands this device knows, ways in, links.
 * Governing rule: screens see no token and no network; whatever goes wrong comes back as a sentence for people.
 * Implemented by client/app over client/sync.
 */
import { createContext, useContext, useSyncExternalStore } from "react";
import type { Id } from "#shared/board/ids.ts";
import type { BoardFile } from "#shared/exchange/board-json.ts";
import type { HistoryRow } from "#shared/history/history.ts";
import type { Result } from "#shared/lib/result.ts";
import type {
  ChangeDevice,
  CreateLink,
  DeviceInfo,
  Link,
  NewLink,
  PrivateValues,
  Role,
  SeasonClosed,
  SeasonInfo,
} from "#shared/protocol/api.ts";

/** Why something did not work out. */
export interface AccessProblem {
  /** One sentence that says what to do. */
  readonly message: string;
  /** True when the same try may work later. */
  readonly retriable: boolean;
  /** True when the server was not reached at all. */
  readonly unreached?: boolean;
}

export type AccessAnswer<T> = Promise<Result<T, AccessProblem>>;

/** A band this device has been let into. */
export interface KnownBand {
  readonly board: Id;
  readonly name: string;
  readonly role: Role;
  /** The person this device belongs to; null until somebody picked their name. */
  readonly member: Id | null;
  /** True when this device may read and write what is private to that person. */
  readonly confirmed: boolean;
  /** The document of the season this device last heard of; name it when you close the season. */
  readonly document: Id;
  /** Moment (ms) at which this way in ends by itself; null = never. */
  readonly expiresAt: number | null;
  /** Device clock, ms. */
  readonly lastOpened: number;
}

/** A band whose leader this device has just become. */
export interface LedBand extends KnownBand {
  /**
   * Lets the leader in again when every device is lost. Shown this once, in groups with hyphens; nobody can ask for it
   * later, only for a new one.
   */
  readonly recoveryCode: string;
}

/** Which rows of a season's history: those between `after` and `before`, of them the last `limit`. */
export interface HistoryPage {
  readonly after?: number;
  readonly before?: number;
  readonly limit?: number;
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
  readonly createBoard: (name: string) => AccessAnswer<LedBand>;
  /** A new board that holds what the file holds. */
  readonly startFrom: (file: BoardFile) => AccessAnswer<LedBand>;
  /** Exchanges a link's secret. A device that may already do more on that board keeps what it may. */
  readonly joinWith: (secret: string, waiting?: Waiting) => AccessAnswer<KnownBand>;
  readonly openDemo: () => AccessAnswer<KnownBand>;
  /** Starts the demo afresh for everybody in it. */
  readonly resetDemo: (board: Id) => AccessAnswer<KnownBand>;
  /** Says whose device this is. The first device of a person is confirmed; a later one waits to be. */
  readonly claimMember: (board: Id, member: Id) => AccessAnswer<null>;
  /** Asks the server what this device is to the board, and remembers it. */
  readonly refresh: (board: Id) => AccessAnswer<KnownBand>;

  /** Oldest first; for leaders. */
  readonly links: (board: Id) => AccessAnswer<readonly Link[]>;
  /** Leaders make every kind; a member makes one for another device of their own (role member, one use, a day). */
  readonly createLink: (board: Id, wanted: CreateLink) => AccessAnswer<NewLink>;
  /** Withdraws a link, and with `andDevices` removes the devices that came in by it. */
  readonly revokeLink: (board: Id, link: Id, andDevices?: boolean) => AccessAnswer<null>;

  /** Oldest first: all of the board's for a leader, those of one's own person for a member. */
  readonly devices: (board: Id) => AccessAnswer<readonly DeviceInfo[]>;
  readonly changeDevice: (board: Id, device: Id, changes: ChangeDevice) => AccessAnswer<DeviceInfo>;
  /** Cuts a device off at once. */
  readonly removeDevice: (board: Id, device: Id) => AccessAnswer<null>;

  /** A new recovery code, in groups with hyphens; the one before is void. For leaders. */
  readonly newRecoveryCode: (board: Id) => AccessAnswer<string>;
  /** Lets this device in as a leader by a recovery code as somebody typed it. The code is void afterwards. */
  readonly recover: (code: string) => AccessAnswer<LedBand>;

  /** First season first; for leaders. */
  readonly seasons: (board: Id) => AccessAnswer<readonly SeasonInfo[]>;
  /** Closes the season of `document` (a band's `document`); doing it twice closes once. */
  readonly closeSeason: (board: Id, document: Id) => AccessAnswer<SeasonClosed>;
  /** Takes a person out of the board and its history for good, with all that is private to them. */
  readonly erasePerson: (board: Id, member: Id) => AccessAnswer<SeasonClosed>;
  /** Erases the band for everybody, and from this device. `name` is what the leader typed to be sure. */
  readonly eraseBand: (board: Id, name: string) => AccessAnswer<null>;

  /** A page of a season's stored changes, oldest first; an empty one means there are none further back. */
  readonly historyRows: (board: Id, document: Id, page: HistoryPage) => AccessAnswer<readonly HistoryRow[]>;
  /** What folds, in order, to the document as it was right after the row `seq`. */
  readonly historyState: (board: Id, document: Id, seq: number) => AccessAnswer<readonly HistoryRow[]>;

  /** All that is private to the person of this device; refused until the device is confirmed. */
  readonly privateValues: (board: Id) => AccessAnswer<PrivateValues["values"]>;
  /** `key`: at most 64 of a–z, 0–9 and hyphen. `value`: anything JSON can say, at most 8 kB; null takes it away. */
  readonly setPrivate: (board: Id, key: string, value: unknown) => AccessAnswer<null>;

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
