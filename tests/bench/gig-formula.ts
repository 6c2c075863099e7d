/** The computing behind a gig's screens, alone in a page: no React, no layout. Bundled by gig.ts and run in the browser. */
import * as Y from "yjs";
import { createWhatIf } from "#client/features/gigs/what-if-reading.ts";
import { type BoardStore, createBoardStore } from "#client/store/board-store.ts";
import { createGigEyes } from "#client/store/gig-eyes.ts";
import { readyOf } from "#client/store/ready-of.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { seedOf } from "#shared/lib/seeded.ts";
import { compile } from "#shared/order/compiled.ts";
import type { SetBrief } from "#shared/order/set-facts.ts";
import { improve, ORDER_STEPS, quickOrder } from "#shared/order/solve-order.ts";
import { orderBrief } from "#shared/selectors/running-order.ts";
import type { Supposed } from "#shared/selectors/what-if.ts";

const openStore = (bytes: Uint8Array): BoardStore => {
  const ydoc = new Y.Doc();
  Y.applyUpdate(ydoc, bytes);
  return createBoardStore({
    document: createBoardDocument(ydoc),
    outbox: { keep: () => {} } as unknown as BoardStore["outbox"],
    identity: {} as BoardStore["identity"],
    now: Date.now,
    newId: () => "none",
  });
};

const timed = (work: () => unknown): number => {
  const begun = performance.now();
  work();
  return performance.now() - begun;
};

const open = (base64: string) => {
  const store = openStore(Uint8Array.from(atob(base64), (char) => char.charCodeAt(0)));
  const board = store.board();
  const eyes = createGigEyes(store);
  const read = createWhatIf(store);
  const gigOf = (id: string) => {
    const gig = board.gigs.find((each) => each.id === id);
    if (gig === undefined) throw new Error(`There is no gig ${id}.`);
    return gig;
  };
  const briefOf = (id: string): SetBrief => {
    const { view } = eyes(board, id);
    const reading = (song: string) => {
      const seen = view(song);
      return seen === null ? null : { night: seen.night.score, ready: readyOf(seen).ready };
    };
    return orderBrief({ board, gig: gigOf(id), reading });
  };
  return {
    /** Milliseconds of one choice. */
    whatIf: (id: string, supposed: readonly Supposed[]): number =>
      timed(() => read(board, gigOf(id), supposed)),
    /** Milliseconds of the brief, the first answer and the search. */
    order: (id: string): { readonly brief: number; readonly quick: number; readonly search: number } => {
      const briefMs = timed(() => briefOf(id));
      const brief = briefOf(id);
      const quick = timed(() => quickOrder(brief));
      const first = quickOrder(brief);
      const search = timed(() => improve(compile(brief), first, seedOf(id), ORDER_STEPS));
      return { brief: briefMs, quick, search };
    },
  };
};

export type Formulas = ReturnType<typeof open>;

declare global {
  interface Window {
    readonly openFormulas: (base64: string) => Formulas;
    formulas: Formulas;
  }
}

(window as { openFormulas: typeof open }).openFormulas = open;
