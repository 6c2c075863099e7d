import "./app.css";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { App } from "#client/app/app.tsx";
import { startShellWorker } from "#client/app/shell-worker.ts";

const root = document.getElementById("root");
if (root === null) throw new Error("index.html has no #root");

createRoot(root).render(
  <StrictMode>
    <App />
  </StrictMode>,
);

// Keeping the shell fetches every file of it: not before the page has what it needs itself.
if (document.readyState === "complete") void startShellWorker();
else window.addEventListener("load", () => void startShellWorker(), { once: true });
