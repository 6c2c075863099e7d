import type { GigReady } from "#shared/readiness/gates.ts";
import { rememberedReady } from "#shared/readiness/gates-cache.ts";
import type { SongView } from "./song-view.ts";

/** The gates of a song from the view's viewpoint. The reference changes only with what they depend on. */
export const readyOf = ({ input, gig, names, night }: SongView): GigReady =>
  rememberedReady(input, { gig, names }, night);

/** A view with its gates. */
export const withReady = (view: SongView): SongView & { readonly ready: GigReady } => ({
  ...view,
  ready: readyOf(view),
});
