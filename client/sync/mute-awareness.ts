import { Awareness } from "y-protocols/awareness";
import type * as Y from "yjs";

/** Whatever client is asked about is known and has never shown itself. */
class NeverSeen extends Map<number, { clock: number; lastUpdated: number }> {
  override get(): { clock: number; lastUpdated: number } {
    return { clock: 0, lastUpdated: 0 };
  }
}

/**
 * An awareness that says nothing, for the provider: it looks up the document's client id there, which changes during
 * a visit, while the server lets a connection speak for one client only.
 */
export const muteAwareness = (ydoc: Y.Doc): Awareness => {
  const awareness = new Awareness(ydoc);
  awareness.setLocalState(null);
  awareness.meta = new NeverSeen();
  return awareness;
};
