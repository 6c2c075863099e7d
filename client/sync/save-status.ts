import { createListeners } from "#client/store/listeners.ts";
import type { SaveState } from "#client/store/save-state.ts";

/** The one place where the state of saving is kept: outbox and connection write their parts, screens read. */
export interface SaveStatus {
  /** The same reference until something changes. */
  readonly state: () => SaveState;
  readonly patch: (changes: Partial<Omit<SaveState, "reason" | "notes">>) => void;
  /** Says what is wrong with the connection or with this device; empty = nothing. The connection goes first. */
  readonly explain: (about: "connection" | "device", sentence: string) => void;
  /** Adds a sentence that somebody should read once. */
  readonly note: (sentence: string) => void;
  readonly forgetNote: (sentence: string) => void;
  /** Tells listeners of something that stands outside the state: what became of one change. */
  readonly touch: () => void;
  readonly subscribe: (listener: () => void) => () => void;
}

export const createSaveStatus = (asOf: number | null = null): SaveStatus => {
  const listeners = createListeners<"state">();
  const reasons = { connection: "", device: "" };
  let state: SaveState = { connection: "connecting", reason: "", unsent: 0, refused: [], asOf, notes: [] };
  const touch = (): void => listeners.notify(["state"]);
  const apply = (changes: Partial<SaveState>): void => {
    const next: SaveState = { ...state, ...changes };
    const keys = Object.keys(changes) as (keyof SaveState)[];
    if (keys.every((key) => Object.is(state[key], next[key]))) return;
    state = next;
    touch();
  };
  return {
    state: () => state,
    patch: apply,
    explain: (about, sentence) => {
      reasons[about] = sentence;
      apply({ reason: reasons.connection || reasons.device });
    },
    note: (sentence) => {
      if (!state.notes.includes(sentence)) apply({ notes: [...state.notes, sentence] });
    },
    forgetNote: (sentence) => apply({ notes: state.notes.filter((note) => note !== sentence) }),
    touch,
    subscribe: (listener) => listeners.subscribe("state", listener),
  };
};
