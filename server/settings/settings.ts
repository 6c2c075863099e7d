import { err, ok, type Result } from "#shared/lib/result.ts";
import { TRUSTED_HEADERS } from "../api/client-address.ts";
import { LOG_LEVELS } from "../log.ts";
import { BOUNDS } from "./bounds-table.ts";
import { anyText, oneOf, onOrOff, originOrNone, origins, wholeNumber } from "./parsers.ts";
import { type Setting, setting } from "./setting.ts";

const DAY_S = 86_400;
const MIB = 1024 * 1024;

/** Every setting of the server, declared once: the environment is read by it and `--help` is printed from it. */
const TABLE = {
  port: setting("PORT", "4400", wholeNumber(0, 65_535), "Port to listen on; 0 picks a free one."),
  host: setting(
    "HOST",
    "0.0.0.0",
    anyText,
    "Address to listen on. The default lets phones in the same network in; 127.0.0.1 keeps it to this machine.",
  ),
  data: setting("DATA", "./data", anyText, "Folder for everything that is kept. Made when missing."),
  client: setting(
    "CLIENT",
    "",
    anyText,
    "Folder of the built client; empty = the one built beside this server.",
  ),
  publicUrl: setting(
    "PUBLIC_URL",
    "",
    originOrNone,
    "Origin people open, when it is not this machine's own address, e.g. behind TLS.",
  ),
  origins: setting(
    "ORIGINS",
    "",
    origins,
    "Further origins whose pages may use this server, with commas between.",
  ),
  demo: setting(
    "DEMO",
    "on",
    onOrOff,
    "Whether there is a demo band that anybody who reaches the server may open.",
  ),
  createBoards: setting(
    "CREATE_BOARDS",
    "on",
    onOrOff,
    "Whether anybody who reaches the server may create a board.",
  ),
  printLinks: setting(
    "PRINT_LINKS",
    "on",
    onOrOff,
    "Whether the start prints joining links of the demo band. Turn it off where others read the output.",
  ),
  log: setting(
    "LOG",
    "info",
    oneOf(LOG_LEVELS),
    `How much is logged, as JSON lines on stderr: ${LOG_LEVELS.join(", ")}.`,
  ),
  bodyBytes: setting(
    "BODY_BYTES",
    "16384",
    wholeNumber(256, MIB),
    "Longest body of an HTTP request, in bytes.",
  ),
  triesPerMinute: setting(
    "TRIES_PER_MINUTE",
    "60",
    wholeNumber(1, 100_000),
    "How often one address may join, create a board or open the demo in a minute.",
  ),
  requestsPerMinute: setting(
    "REQUESTS_PER_MINUTE",
    "3000",
    wholeNumber(1, 1_000_000),
    "How many HTTP requests one address may make in a minute.",
  ),
  writesPerMinute: setting(
    "WRITES_PER_MINUTE",
    "600",
    wholeNumber(1, 1_000_000),
    "How many HTTP requests that change something one device may make in a minute.",
  ),
  trustProxy: setting(
    "TRUST_PROXY",
    "off",
    oneOf(TRUSTED_HEADERS),
    `Header in which a proxy on this machine names the caller's address: ${TRUSTED_HEADERS.join(", ")}.`,
  ),
  metricsToken: setting(
    "METRICS_TOKEN",
    "",
    anyText,
    "Bearer token that opens /metrics from elsewhere; empty = from this machine only.",
  ),
  archiveDays: setting(
    "ARCHIVE_DAYS",
    "0",
    wholeNumber(0, 36_500),
    "How many days single changes are kept after a snapshot holds them, for the history; 0 = for ever.",
  ),
  idleSeconds: setting(
    "IDLE_SECONDS",
    "60",
    wholeNumber(0, DAY_S),
    "How long a board nobody looks at stays in memory.",
  ),
  heartbeatSeconds: setting(
    "HEARTBEAT_SECONDS",
    "20",
    wholeNumber(1, 25),
    "How often connections are checked. Clients give up after 30 silent seconds.",
  ),
  backups: setting(
    "BACKUPS",
    "14",
    wholeNumber(0, 3650),
    "How many daily backups stay in the data folder's backups; 0 = none are made.",
  ),
  backupMonths: setting(
    "BACKUP_MONTHS",
    "6",
    wholeNumber(0, 1200),
    "For how many months, beyond the daily ones, the first backup of the month stays.",
  ),
  backupHour: setting(
    "BACKUP_HOUR",
    "4",
    wholeNumber(0, 23),
    "Hour of this machine's day from which the day's backup is made.",
  ),
  ...BOUNDS,
  dataLimitMb: setting(
    "DATA_LIMIT_MB",
    "0",
    wholeNumber(0, 1_000_000),
    "Most the database may take, in MiB; 0 = as much as the disk has.",
  ),
} as const;

type Table = typeof TABLE;

export type Settings = { readonly [K in keyof Table]: Table[K] extends Setting<infer T> ? T : never };

type Environment = Readonly<Record<string, string | undefined>>;

/** Reads the settings; an empty or missing variable means the default. Refused with a sentence per wrong value. */
export const readSettings = (env: Environment): Result<Settings, string[]> => {
  const mistakes: string[] = [];
  const values: Record<string, unknown> = {};
  for (const [key, { name, fallback, parse }] of Object.entries(TABLE)) {
    const parsed = parse(env[name] || fallback);
    if (parsed.ok) values[key] = parsed.value;
    else mistakes.push(`${name} ${parsed.error}; it is "${env[name]}".`);
  }
  return mistakes.length > 0 ? err(mistakes) : ok(values as Settings);
};

/** `TIGHTROW_` variables that no setting reads, so that a typing mistake does not silently mean the default. */
export const unknownSettings = (env: Environment): string[] => {
  const known = new Set<string>(Object.values(TABLE).map(({ name }) => name));
  return Object.keys(env).filter((name) => name.startsWith("TIGHTROW_") && !known.has(name));
};

/** What `--help` prints: the tools, as lines, and every setting with its default. */
export const helpText = (tools: readonly string[]): string => {
  const lines = Object.values(TABLE).map(
    ({ name, fallback, help }) => `  ${name}${fallback === "" ? "" : ` (${fallback})`}\n      ${help}`,
  );
  return [
    "Tightrow: a rehearsal board for bands.",
    "",
    "Usage: npm start, or node dist/server/main.js [tool]",
    "",
    "Tools, each instead of starting the server:",
    ...tools,
    "",
    "Settings, as environment variables (default in brackets):",
    ...lines,
    "",
  ].join("\n");
};
