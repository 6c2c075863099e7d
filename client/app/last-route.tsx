import { Redirect } from "wouter";
import { boardLink } from "#client/pieces/links.ts";
import { device } from "./device.ts";
import { lastPlace } from "./last-place.ts";
import { boardHref } from "./places.ts";
import type { ScreenProps } from "./screen.tsx";

/** Where a start from the home screen leads: the board that was open last, where one left it, or a place that is named. */
export const LastRoute = ({ params: { place } }: ScreenProps) => {
  const last = device.boards()[0];
  if (last === undefined) return <Redirect to="/" replace />;
  const path = place === undefined ? (lastPlace(last.board) ?? boardLink()) : `/${place}`;
  return <Redirect to={boardHref(last.board, path).slice(1)} replace />;
};
