/**
 * True when connecting again may help: every close code but 1009 and those from 4400 to 4499. Codes nobody declared, such as
 * 1006 (the network broke), are retriable. What each code says stands in close-codes.ts.
 */
export const isRetriable = (code: number): boolean => code !== 1009 && (code < 4400 || code > 4499);
