/** A value a log line may carry. Never a token, a secret, a body or an address with a query. */
type Field = string | number | boolean | null | undefined;

export interface Log {
  info(event: string, fields?: Readonly<Record<string, Field>>): void;
  warn(event: string, fields?: Readonly<Record<string, Field>>): void;
  error(event: string, fields?: Readonly<Record<string, Field>>): void;
}

export const LOG_LEVELS = ["info", "warn", "error", "silent"] as const;

export type LogLevel = (typeof LOG_LEVELS)[number];

/** A log of JSON lines: moment (ISO 8601), level, event, then the event's own fields. */
export const createLog = (level: LogLevel, write: (line: string) => void, clock: () => number): Log => {
  const at =
    (lineLevel: Exclude<LogLevel, "silent">) =>
    (event: string, fields: Readonly<Record<string, Field>> = {}): void => {
      if (LOG_LEVELS.indexOf(lineLevel) < LOG_LEVELS.indexOf(level)) return;
      write(
        `${JSON.stringify({ at: new Date(clock()).toISOString(), level: lineLevel, event, ...fields })}\n`,
      );
    };
  return { info: at("info"), warn: at("warn"), error: at("error") };
};

/** The message of anything that was thrown. */
export const whyOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
