/**
 * Presence on the board's connection. It speaks for a client id of its own, the same as long as the page lives: the
 * document's changes during a visit, and the server lets a connection speak for one only.
 */
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import {
  Awareness,
  applyAwarenessUpdate,
  encodeAwarenessUpdate,
  removeAwarenessStates,
} from "y-protocols/awareness";
import type { WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import type { PresenceChannel } from "#client/store/presence.ts";
import { MESSAGE } from "#shared/protocol/messages.ts";

export interface OpenPresence extends PresenceChannel {
  readonly close: () => void;
}

/** Sends and hears presence over the provider's socket; shows itself anew on every new one. */
export const openPresence = (provider: WebsocketProvider): OpenPresence => {
  const awareness = new Awareness(new Y.Doc());
  const { clientID } = awareness;
  awareness.setLocalState(null);
  const others = (): number[] => [...awareness.getStates().keys()].filter((client) => client !== clientID);

  provider.messageHandlers[MESSAGE.awareness] = (_encoder, decoder) => {
    try {
      applyAwarenessUpdate(awareness, decoding.readVarUint8Array(decoder), "server");
    } catch {
      // Somebody's broken presence is nobody's trouble.
    }
  };
  const send = (): void => {
    if (!provider.wsconnected) return;
    const frame = encoding.encode((encoder) => {
      encoding.writeVarUint(encoder, MESSAGE.awareness);
      encoding.writeVarUint8Array(encoder, encodeAwarenessUpdate(awareness, [clientID]));
    });
    provider.ws?.send(frame as Uint8Array<ArrayBuffer>);
  };
  // Also called every 15 s while this device shows itself: others forget whom they have not heard of for 30 s.
  awareness.on("update", (_changes: unknown, origin: unknown) => {
    if (origin === "local") send();
  });
  const follow = ({ status }: { readonly status: string }): void => {
    if (status === "disconnected") {
      removeAwarenessStates(awareness, others(), "gone");
      // Whoever is still there on the next connection comes with the clock they had.
      for (const client of [...awareness.meta.keys()]) if (client !== clientID) awareness.meta.delete(client);
    }
    const state = awareness.getLocalState();
    // Set again, because the others have heard that this device left: only a later clock brings it back.
    if (status === "connected" && state !== null) awareness.setLocalState(state);
  };
  provider.on("status", follow);
  // Who was there already was told before anybody listened here.
  if (provider.wsconnected) provider.ws?.send(Uint8Array.of(MESSAGE.queryAwareness));

  return {
    announce: (present) => awareness.setLocalState(present === null ? null : { ...present }),
    others: () => others().map((client) => awareness.getStates().get(client)),
    subscribe: (listener) => {
      awareness.on("change", listener);
      return () => awareness.off("change", listener);
    },
    close: () => {
      provider.off("status", follow);
      awareness.destroy();
    },
  };
};
