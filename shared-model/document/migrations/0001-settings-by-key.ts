import { constantsOfRecord } from "../constant-keys.ts";
import type { Migration } from "./migration.ts";

/**
 * The band's constants leave their one record for a key each, so that two leaders no longer overwrite each other.
 * A constant that has a key already keeps it. The record stays: an old client may still write it.
 */
export const settingsByKey: Migration = {
  id: "0001-settings-by-key",
  apply: (document, set) => {
    const { constants } = constantsOfRecord(document.get("band", "settings"));
    for (const [key, value] of constants) {
      if (document.get("settings", key) === undefined) set("settings", key, value);
    }
  },
};
