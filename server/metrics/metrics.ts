import { monitorEventLoopDelay } from "node:perf_hooks";
import { type Counter, createMetricRegistry, type Histogram } from "./registry.ts";

/** What is true at the moment the page is asked for. */
export interface Gauges {
  readonly boards: number;
  /** Boards whose document is in memory, and what these documents come to in bytes when written out. */
  readonly documents: number;
  readonly documentBytes: number;
  readonly connections: number;
  readonly storing: boolean;
  /** Bytes of the database. */
  readonly storageBytes: number;
}

/** The server's numbers. */
export interface Metrics {
  readonly rows: Counter;
  readonly rowBytes: Counter;
  readonly framesIn: Counter;
  readonly bytesIn: Counter;
  /** From a change's arrival to its acknowledgement. */
  readonly acknowledgement: Histogram;
  readonly flush: Histogram;
  /** How long folding a document held everything up. */
  readonly folding: Histogram;
  readonly foldingFailures: Counter;
  /** By close code. */
  readonly closes: Counter;
  /** By the refusal's name. */
  readonly refusals: Counter;
  /** Says where the gauges are read from, and begins to watch the event loop until `close`. */
  watch(read: () => Gauges): void;
  /** The page. */
  render(): string;
  close(): void;
}

const LATENCY_BOUNDS = [0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5];
const NS_PER_S = 1e9;

const NOTHING: Gauges = {
  boards: 0,
  documents: 0,
  documentBytes: 0,
  connections: 0,
  storing: true,
  storageBytes: 0,
};

export const createMetrics = (): Metrics => {
  const registry = createMetricRegistry();
  const delay = monitorEventLoopDelay({ resolution: 20 });
  let read = (): Gauges => NOTHING;
  const gauge = (name: string, help: string, value: (gauges: Gauges) => number): void =>
    registry.gauge(`tightrow_${name}`, help, () => value(read()));

  gauge("boards", "Boards somebody uses or has used a moment ago.", ({ boards }) => boards);
  gauge("documents_in_memory", "Boards whose document is in memory.", ({ documents }) => documents);
  gauge("document_bytes", "Bytes of the documents in memory, written out.", (now) => now.documentBytes);
  gauge("connections", "Devices connected.", ({ connections }) => connections);
  gauge("storing", "1 while everything can be stored, else 0.", ({ storing }) => Number(storing));
  gauge("storage_bytes", "Bytes of the database.", ({ storageBytes }) => storageBytes);
  registry.gauge("process_resident_memory_bytes", "Resident memory.", () => process.memoryUsage.rss());
  registry.gauge(
    "tightrow_event_loop_delay_seconds",
    "How late timers run, 99th percentile since the page was last read.",
    () => {
      const late = delay.percentile(99) / NS_PER_S;
      delay.reset();
      return late;
    },
  );
  const counter = (name: string, help: string, label?: string) =>
    registry.counter(`tightrow_${name}_total`, help, label);
  const histogram = (name: string, help: string) =>
    registry.histogram(`tightrow_${name}_seconds`, help, LATENCY_BOUNDS);

  return {
    rows: counter("rows", "Changes stored."),
    rowBytes: counter("row_bytes", "Bytes of changes stored."),
    framesIn: counter("frames_in", "Messages received."),
    bytesIn: counter("bytes_in", "Bytes of messages received."),
    acknowledgement: histogram("acknowledgement", "From a change's arrival to its acknowledgement."),
    flush: histogram("flush", "One sync of the disk, as those who wait see it."),
    folding: histogram("folding", "How long folding a document into a snapshot held the server up."),
    foldingFailures: counter("folding_failures", "Foldings that were put off because they failed."),
    closes: counter("closes", "Connections the server closed, by code.", "code"),
    refusals: counter("refusals", "HTTP requests refused, by reason.", "reason"),
    watch: (gauges) => {
      read = gauges;
      delay.enable();
    },
    render: () => registry.render(),
    close: () => delay.disable(),
  };
};
