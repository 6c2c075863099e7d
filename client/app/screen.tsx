import { type ComponentType, use } from "react";

/** What a screen is told by its address. */
export interface ScreenProps {
  readonly params: Readonly<Record<string, string | undefined>>;
}

/** A screen in a part of the client that loads on demand. */
export interface Screen {
  /** Loads it once; the same promise every time, as `use` needs it, a failed one too. */
  readonly load: () => Promise<ComponentType<ScreenProps>>;
  /** Lets the next `load` try again if the last one failed (no signal). */
  readonly forgetFailure: () => void;
}

/** Declares a screen by how it is loaded. */
export const screen = (load: () => Promise<ComponentType<ScreenProps>>): Screen => {
  let loading: Promise<ComponentType<ScreenProps>> | null = null;
  let failed = false;
  return {
    load: () => {
      loading ??= load().catch((error: unknown) => {
        failed = true;
        throw error;
      });
      return loading;
    },
    forgetFailure: () => {
      if (failed) loading = null;
      failed = false;
    },
  };
};

/** Shows a screen; suspends until it is there. */
export const ShowScreen = ({ screen, params }: ScreenProps & { readonly screen: Screen }) => {
  const Component = use(screen.load());
  return <Component params={params} />;
};
