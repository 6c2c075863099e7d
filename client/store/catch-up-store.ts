/**
 * What one member on this device knows of the board, kept between visits, and what is news to them. Nothing of it
 * goes to the document: what is understood on the phone is not known to be understood on the laptop.
 */
import type { Board } from "#shared/board/board.ts";
import { dayOf } from "#shared/lib/calendar.ts";
import { concerning, knownFrom } from "#shared/selectors/catch-up/concerns.ts";
import { type Digest, digesting } from "#shared/selectors/catch-up/digest.ts";
import { type Cover, type Known, knownBefore, understand } from "#shared/selectors/catch-up/fact.ts";
import { absorbOwn } from "#shared/selectors/catch-up/own-change.ts";
import type { BoardStore } from "./board-store.ts";

/** What is kept of one member on one board. */
export interface KeptKnown {
  readonly known: Known;
  /** Moment (ms) of the last look: when everything was understood, or the device first had the board. */
  readonly since: number;
  /** True until everything was understood once. */
  readonly first: boolean;
}

/** Where it is kept; client/sync implements it. Nothing here rejects. */
export interface KnownShelf {
  /** `missing`: nothing was kept yet. `broken`: what was kept cannot be read. */
  readonly read: () => Promise<KeptKnown | "missing" | "broken">;
  /** False = this device keeps nothing between visits. */
  readonly write: (kept: KeptKnown) => Promise<boolean>;
}

export interface CatchUpState {
  /** null = being worked out. */
  readonly digest: Digest | null;
  readonly since: number;
  readonly first: boolean;
  /** What was kept could not be read, so it starts anew. */
  readonly broken: boolean;
  /** False = what is understood is forgotten with the page. */
  readonly lasting: boolean;
}

export interface CatchUpStore {
  readonly state: () => CatchUpState;
  readonly subscribe: (listener: () => void) => () => void;
  /** Counts these entries as understood, as they were shown. Answers how to take it back. */
  readonly understand: (covers: readonly Cover[]) => () => void;
  readonly close: () => void;
}

export interface CatchUpOptions {
  readonly store: Pick<BoardStore, "board" | "subscribe" | "subscribeOwn" | "now">;
  readonly shelf: KnownShelf;
  readonly member: string;
  readonly writer: string;
  /** Walks through steps a few at a time; answers how to give it up. */
  readonly inSlices: <T, R>(steps: Iterator<T, R>, done: (result: R) => void) => () => void;
}

/** How long (ms) the board stands still before the digest is worked out again. */
const CALM_MS = 400;

/** Reads what is kept, or begins with the board as it is now: on a first visit there is nothing to report. */
export const openCatchUp = async (options: CatchUpOptions): Promise<CatchUpStore> => {
  const { store, shelf, member, writer, inSlices } = options;
  const listeners = new Set<() => void>();
  const whoseOn = (board: Board, since: number) => ({
    member,
    writer,
    from: dayOf(since, board.band.timeZone),
    since,
  });
  const factsOf = (board: Board, since: number): Known =>
    knownFrom(concerning(board, whoseOn(board, since), kept.known));
  const read = await shelf.read();
  const begun = { known: new Map(), since: store.now(), first: true } as const;
  let kept: KeptKnown = typeof read === "string" ? begun : read;
  if (typeof read === "string") kept = { ...begun, known: factsOf(store.board(), begun.since) };
  let state: CatchUpState = {
    digest: null,
    since: kept.since,
    first: kept.first,
    broken: read === "broken",
    lasting: true,
  };
  let closed = false;
  /** One after another, so that the latest is what stays. */
  let writing = Promise.resolve();
  let giveUp = (): void => undefined;
  let soon: ReturnType<typeof setTimeout> | undefined;
  const tell = (changes: Partial<CatchUpState>): void => {
    if (closed) return;
    state = { ...state, ...changes };
    for (const listener of listeners) listener();
  };
  const write = (next: KeptKnown): void => {
    kept = next;
    writing = writing
      .then(() => shelf.write(next))
      .then((lasting) => {
        if (lasting !== state.lasting) tell({ lasting });
      });
  };
  const workOut = (): void => {
    giveUp();
    const question = {
      board: store.board(),
      known: kept.known,
      whose: { member, writer },
      since: kept.since,
      asOf: store.now(),
    };
    giveUp = inSlices(digesting(question), (digest) => {
      // Everything is understood: the next look is measured from here.
      if (digest.items.length === 0 && marked) settle();
      tell({ digest, since: kept.since, first: kept.first });
    });
  };
  /** Something was understood since the last look. */
  let marked = false;
  const settle = (): void => {
    marked = false;
    const since = store.now();
    write({ known: factsOf(store.board(), since), since, first: false });
  };
  const know = (known: Known): void => {
    write({ ...kept, known });
    workOut();
  };

  if (typeof read === "string") write(kept);
  const stops = [
    store.subscribe("board", () => {
      clearTimeout(soon);
      soon = setTimeout(workOut, CALM_MS);
    }),
    store.subscribeOwn((before, after) => {
      const { since, known } = kept;
      write({ ...kept, known: absorbOwn(known, [before, after], (board) => whoseOn(board, since)) });
    }),
  ];
  workOut();
  return {
    state: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    understand: (covers) => {
      const before = knownBefore(kept.known, covers);
      const { since, first } = kept;
      marked = true;
      kept = { ...kept, first: false };
      know(understand(kept.known, covers));
      return () => {
        kept = { ...kept, since, first };
        know(understand(kept.known, before));
      };
    },
    close: () => {
      closed = true;
      giveUp();
      clearTimeout(soon);
      for (const stop of stops) stop();
    },
  };
};
