/** 128 bits: two devices never mint the same. */
const ID_BYTES = 16;

/**
 * A fresh identifier, base64url, 22 characters. `crypto.randomUUID` is missing on pages served over plain http,
 * `getRandomValues` is not.
 */
export const randomId = (): string => {
  const bytes = crypto.getRandomValues(new Uint8Array(ID_BYTES));
  return btoa(String.fromCharCode(...bytes))
    .replaceAll("+", "-")
    .replaceAll("/", "_")
    .replaceAll("=", "");
};
