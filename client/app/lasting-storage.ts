/* Whether the browser may clear what this device keeps when it runs out of space, or after a while unused. */

/** lasting = it clears nothing by itself; clearable = it may; unknown = it does not say. */
export type Lasting = "lasting" | "clearable" | "unknown";

export interface Kept {
  readonly lasting: Lasting;
  /** Bytes this page keeps on the device, as the browser estimates them; null = it does not say. */
  readonly bytes: number | null;
}

/** Missing on plain http and in old browsers. */
const manager = (): StorageManager | undefined => navigator.storage as StorageManager | undefined;

/** What the browser says of it now. Never rejects. */
export const readKept = async (): Promise<Kept> => {
  try {
    const lasting = await manager()?.persisted?.();
    const estimate = await manager()?.estimate?.();
    return {
      lasting: lasting === undefined ? "unknown" : lasting ? "lasting" : "clearable",
      bytes: estimate?.usage ?? null,
    };
  } catch {
    return { lasting: "unknown", bytes: null };
  }
};

/** Asks the browser to keep what is here. Some grant it without a word, some ask the person. */
export const askToLast = async (): Promise<void> => {
  try {
    if ((await manager()?.persisted?.()) === false) await manager()?.persist();
  } catch {
    // Storage is closed to this page.
  }
};

let asked = false;

/** As `askToLast`, once a visit: nobody is asked twice without having asked for it. */
export const askToLastOnce = (): void => {
  if (asked) return;
  asked = true;
  void askToLast();
};
