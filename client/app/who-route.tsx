import { useLocation } from "wouter";
import { PickName } from "#client/features/join/pick-name.tsx";
import { partsLink } from "#client/pieces/links.ts";

/** Picking one's name, on the way to one's own parts. */
export const WhoRoute = () => {
  const [, go] = useLocation();
  return <PickName onDone={() => go(partsLink(), { replace: true })} />;
};
