/** Two ends of one connection as queues: nothing arrives until somebody delivers it. */

type Item =
  | { readonly kind: "open" }
  | { readonly kind: "frame"; readonly bytes: Uint8Array }
  | { readonly kind: "close"; readonly code: number; readonly reason: string };

/** What stands at the server's end. */
export interface ServerEnd {
  readonly receive: (bytes: Uint8Array) => void;
  readonly left: () => void;
}

/** One connection between a phone and the server. Each direction keeps its order, like TCP. */
export class Link {
  readonly owner: string;
  readonly url: string;
  readonly protocols: readonly string[];
  readonly toServer: Item[] = [];
  readonly toClient: Item[] = [];
  /** Set once the server has let the connection in. */
  server: ServerEnd | null = null;
  client: FakeSocket | null;
  /** Frames wait while the link is held, as in a lift. */
  held = false;

  constructor(owner: string, url: string, protocols: readonly string[], client: FakeSocket) {
    this.owner = owner;
    this.url = url;
    this.protocols = protocols;
    this.client = client;
  }

  /** Both ends learn that the network broke; what was on its way is gone. */
  break(): void {
    this.toServer.length = 0;
    this.toClient.length = 0;
    this.client?.arrive({ kind: "close", code: 1006, reason: "" });
    this.client = null;
    this.server?.left();
    this.server = null;
  }

  get isOver(): boolean {
    return this.client === null && this.server === null && this.toServer.length === 0;
  }

  deliverToServer(copies: number): void {
    const item = this.toServer.shift();
    if (item?.kind === "close") {
      this.server?.left();
      this.server = null;
    } else if (item?.kind === "frame") {
      for (let i = 0; i < copies; i++) this.server?.receive(item.bytes);
    }
  }

  deliverToClient(copies: number): void {
    const item = this.toClient.shift();
    if (item === undefined || this.client === null) return;
    const times = item.kind === "frame" ? copies : 1;
    for (let i = 0; i < times; i++) this.client?.arrive(item);
    if (item.kind === "close") this.client = null;
  }
}

/** The part of the browser's WebSocket that the provider uses. */
export class FakeSocket {
  static readonly CONNECTING = 0;
  static readonly OPEN = 1;
  static readonly CLOSING = 2;
  static readonly CLOSED = 3;
  readonly CONNECTING = 0;
  readonly OPEN = 1;
  readonly CLOSING = 2;
  readonly CLOSED = 3;
  readyState = 0;
  binaryType = "blob";
  onopen: (() => void) | null = null;
  onmessage: ((event: { readonly data: Uint8Array }) => void) | null = null;
  onclose: ((event: { readonly code: number; readonly reason: string }) => void) | null = null;
  onerror: ((event: unknown) => void) | null = null;
  link: Link | null = null;

  send(bytes: Uint8Array): void {
    if (this.readyState !== this.OPEN) return;
    this.link?.toServer.push({ kind: "frame", bytes: bytes.slice() });
  }

  close(): void {
    if (this.readyState >= this.CLOSING) return;
    this.readyState = this.CLOSED;
    const { link } = this;
    if (link === null) return;
    link.client = null;
    link.toClient.length = 0;
    link.toServer.push({ kind: "close", code: 1000, reason: "" });
  }

  arrive(item: Item): void {
    if (this.readyState === this.CLOSED) return;
    if (item.kind === "open") {
      this.readyState = this.OPEN;
      this.onopen?.();
    } else if (item.kind === "frame") {
      this.onmessage?.({ data: item.bytes });
    } else {
      this.readyState = this.CLOSED;
      this.onclose?.({ code: item.code, reason: item.reason });
    }
  }
}
