/**
 * An outcome that may be refused. Refusals that a person can cause are values; only programmer mistakes throw.
 * `E` is a plain string (one sentence for people) unless the caller needs to tell refusals apart.
 */
export type Result<T, E = string> = Ok<T> | Err<E>;

export interface Ok<T> {
  readonly ok: true;
  readonly value: T;
}

export interface Err<E> {
  readonly ok: false;
  readonly error: E;
}

export const ok = <T>(value: T): Ok<T> => ({ ok: true, value });

export const err = <E>(error: E): Err<E> => ({ ok: false, error });
