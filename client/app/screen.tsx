import { type ComponentType, use } from "react";

/** What a screen is told by its address. */
export interface ScreenProps {
  readonly params: Readonly<Record<string, string | undefined>>;
}

/** A screen in a part of the client that loads on demand. */
export interface Screen {
  /** Loads it once. A load that failed (no signal) is tried again at the next call, unlike with `React.lazy`. */
  readonly load: () => Promise<ComponentType<ScreenProps>>;
}

/** Declares a screen by how it is loaded. */
export const screen = (load: () => Promise<ComponentType<ScreenProps>>): Screen => {
  let loading: Promise<ComponentType<ScreenProps>> | null = null;
  return {
    load: () => {
      loading ??= load().catch((error: unknown) => {
        loading = null;
        throw error;
      });
      return loading;
    },
  };
};

/** Shows a screen; suspends until it is there. */
export const ShowScreen = ({ screen, params }: ScreenProps & { readonly screen: Screen }) => {
  const Component = use(screen.load());
  return <Component params={params} />;
};
