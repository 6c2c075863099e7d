import "./app.css";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { App } from "#client/app/app.tsx";
import { listenForInstall } from "#client/app/installing.ts";
import { startShellWorker } from "#client/app/shell-worker.ts";

const root = document.getElementById("root");
if (root === null) throw new Error("index.html has no #root");

listenForInstall();

createRoot(root).render(
  <StrictMode>
    <App />
  </StrictMode>,
);

// An address within a board asks for this itself, once the board is there.
const keepShell = (): void => {
  if (!location.hash.startsWith("#/b/")) void startShellWorker();
};
if (document.readyState === "complete") keepShell();
else window.addEventListener("load", keepShell, { once: true });
