import { createHash, randomBytes, timingSafeEqual } from "node:crypto";
import { encodeRecoveryCode } from "#shared/protocol/recovery-code.ts";

/** 128 bits cannot be guessed, and fit in an address a person can still copy. */
const SECRET_BYTES = 16;
/** Ids only have to be unique. */
const ID_BYTES = 12;

/** A new token or link secret, base64url. It is given out once; only its hash is kept. */
export const mintSecret = (): string => randomBytes(SECRET_BYTES).toString("base64url");

/** A new id for a board, device or link, base64url. */
export const mintId = (): string => randomBytes(ID_BYTES).toString("base64url");

/** A new recovery code, in its canonical form: the same 128 bits, in letters that can be read from paper. */
export const mintRecoveryCode = (): string => encodeRecoveryCode(randomBytes(SECRET_BYTES));

/** SHA-256, base64url. No salt and no slow hash: the secrets are random, so there is no dictionary to try. */
export const hashSecret = (secret: string): string => createHash("sha256").update(secret).digest("base64url");

/** Compares two hashes in a time that does not tell where they differ. */
export const sameHash = (a: string, b: string): boolean => {
  const left = Buffer.from(a);
  const right = Buffer.from(b);
  return left.length === right.length && timingSafeEqual(left, right);
};
