/**
 * Counts which components React renders, from inside the page, by the hook React offers to its developer tools.
 * A component rendered when its fiber is new or did work in the commit (the flag PerformedWork); subtrees that
 * React left alone share their child pointer with the tree before and are not looked at.
 */
import type { Page } from "playwright-core";

declare global {
  interface Window {
    renders: Record<string, number>;
  }
}

/** What is read of React's fibers. */
interface Fiber {
  readonly tag: number;
  readonly flags: number;
  readonly type: unknown;
  readonly elementType: unknown;
  readonly child: Fiber | null;
  readonly sibling: Fiber | null;
  readonly alternate: Fiber | null;
}

/** Starts counting in every document the page opens from now on. */
export const countRenders = (page: Page): Promise<unknown> =>
  page.addInitScript(() => {
    const PERFORMED_WORK = 1;
    // Function, class, forwardRef, memo and simple memo components.
    const COMPONENTS = new Set([0, 1, 11, 14, 15]);
    const nameOf = ({ type, elementType }: Fiber): string => {
      for (const of of [elementType, type] as { displayName?: string; name?: string }[])
        if (of?.displayName || of?.name) return of.displayName ?? of.name ?? "";
      return "unnamed";
    };
    const visit = (fiber: Fiber): void => {
      const rendered = fiber.alternate === null || (fiber.flags & PERFORMED_WORK) !== 0;
      if (COMPONENTS.has(fiber.tag) && rendered) {
        const name = nameOf(fiber);
        window.renders[name] = (window.renders[name] ?? 0) + 1;
      }
      if (fiber.alternate !== null && fiber.child === fiber.alternate.child) return;
      for (let child = fiber.child; child !== null; child = child.sibling) visit(child);
    };
    window.renders = {};
    Object.assign(window, {
      __REACT_DEVTOOLS_GLOBAL_HOOK__: {
        supportsFiber: true,
        renderers: new Map(),
        inject: () => 1,
        checkDCE: () => {},
        onCommitFiberRoot: (_id: number, root: { readonly current: Fiber }) => visit(root.current),
        onPostCommitFiberRoot: () => {},
        onCommitFiberUnmount: () => {},
      },
    });
  });

/** What was rendered while `act` ran and until the page has painted: component name → how often. */
export const rendersDuring = async (
  page: Page,
  act: () => Promise<unknown>,
): Promise<Readonly<Record<string, number>>> => {
  await page.evaluate(() => {
    window.renders = {};
  });
  await act();
  return page.evaluate(
    () =>
      new Promise<Record<string, number>>((done) =>
        requestAnimationFrame(() => requestAnimationFrame(() => done(window.renders))),
      ),
  );
};
