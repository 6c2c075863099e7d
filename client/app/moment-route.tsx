import { MomentScreen } from "#client/features/history/moment-screen.tsx";
import { NotHere } from "./not-here.tsx";
import type { ScreenProps } from "./screen.tsx";

/** The board right after one stored change of a season. */
export const MomentRoute = ({ params: { document, seq = "" } }: ScreenProps) =>
  document !== undefined && /^\d{1,15}$/.test(seq) ? (
    <MomentScreen document={document} seq={Number(seq)} />
  ) : (
    <NotHere />
  );
