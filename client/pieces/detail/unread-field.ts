/** The first field beside a detail's words whose text cannot be read: saving would leave out what stands in it. */
export const unreadField = (root: Element | null): HTMLElement | null =>
  root?.querySelector<HTMLElement>('[data-form] [aria-invalid="true"]') ?? null;
