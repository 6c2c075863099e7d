/* What a browser says of itself while the page loads, kept for whoever asks later (home-screen.ts). */

/** W3C Manifest Incubations, BeforeInstallPromptEvent. */
interface InstallPrompt extends Event {
  prompt(): Promise<unknown>;
}

export const installing = {
  prompt: null as InstallPrompt | null,
  installed: false,
  /** Told when one of the above changes. */
  listeners: new Set<() => void>(),
};

export const tellInstalling = (): void => {
  for (const changed of installing.listeners) changed();
};

/** Call it before the page has loaded: the browser does not say it twice. */
export const listenForInstall = (): void => {
  addEventListener("beforeinstallprompt", (event) => {
    // The browser's own bar would come over whatever somebody is doing.
    event.preventDefault();
    installing.prompt = event as InstallPrompt;
    tellInstalling();
  });
  addEventListener("appinstalled", () => {
    installing.prompt = null;
    installing.installed = true;
    tellInstalling();
  });
};
