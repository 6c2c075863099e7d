import { useCallback, useLayoutEffect, useState } from "react";
import { useLocation } from "wouter";
import { JoinScreen } from "#client/features/join/join-screen.tsx";
import type { FirstPlace } from "#client/store/band-access.ts";
import { cleanAddress } from "#client/sync/joining.ts";
import type { Joining } from "#shared/protocol/joining-address.ts";
import { NotHere } from "./not-here.tsx";
import type { ScreenProps } from "./screen.tsx";

/** A link into a board. Its secret leaves the address before anything else happens, and lives on in this screen only. */
export const JoinRoute = ({ params: { board, secret } }: ScreenProps) => {
  const [, go] = useLocation();
  const [joining, setJoining] = useState<Joining | null>(null);
  if (board !== undefined && secret !== undefined && secret !== joining?.secret)
    setJoining({ board, secret });
  useLayoutEffect(() => {
    if (secret !== undefined) cleanAddress("/join");
  }, [secret]);
  const onJoined = useCallback(
    (into: string, first: FirstPlace) => go(`/b/${encodeURIComponent(into)}/${first}`, { replace: true }),
    [go],
  );
  return joining === null ? (
    <NotHere />
  ) : (
    <JoinScreen key={joining.secret} {...joining} onJoined={onJoined} />
  );
};
