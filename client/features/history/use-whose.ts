import { useCallback, useMemo } from "react";
import { useAsked } from "#client/pieces/use-asked.ts";
import { useBandAccess } from "#client/store/band-access.ts";
import { useBoardId } from "#client/store/hooks.ts";
import { deviceName } from "#shared/selectors/device-words.ts";
import { devicesOfWriters } from "#shared/selectors/history/entry-facts.ts";
import type { HistoryLine } from "#shared/selectors/history/history-lines.ts";
import type { Page } from "./use-pages.ts";

/** What is said about where an entry came from. */
export type Whose = (line: HistoryLine) => string;

/** Names of devices, and which entries another device than their author's handed over. */
export const useWhose = (pages: readonly Page[]): Whose => {
  const access = useBandAccess();
  const board = useBoardId();
  const { answer } = useAsked(useCallback(() => access.devices(board), [access, board]));
  const names = useMemo(
    () => new Map(answer?.ok ? answer.value.map((device) => [device.id, deviceName(device)]) : []),
    [answer],
  );
  const devices = useMemo(
    () => devicesOfWriters(pages.flatMap(({ lines }) => lines.map(({ entry }) => entry))),
    [pages],
  );
  return useCallback(
    ({ entry: { author } }) => {
      const own = devices.get(author.device) ?? author.device;
      const passedOn = author.sentBy !== null && author.sentBy !== own;
      return [names.get(own) ?? "", passedOn ? "sent by another device" : ""]
        .filter((word) => word !== "")
        .join(" · ");
    },
    [names, devices],
  );
};
