import type { ComponentPropsWithRef } from "react";
import { classNames } from "./class-names.ts";

export interface TextLinkProps extends ComponentPropsWithRef<"a"> {
  /** `#/…` within Tightrow, or a checked http(s) address. */
  readonly href: string;
  /** Alone on its line: tall enough for a thumb. */
  readonly standing?: boolean;
}

/** A link in running text. Addresses outside Tightrow open in a new tab and learn nothing about the page. */
export const TextLink = ({ href, standing = false, className, ...rest }: TextLinkProps) => {
  const outside = !href.startsWith("#");
  return (
    <a
      href={href}
      {...(outside ? { target: "_blank", rel: "noreferrer noopener" } : {})}
      className={classNames(
        "underline decoration-control underline-offset-4 hover:decoration-ink",
        standing && "inline-flex min-h-12 min-w-11 items-center dense:min-h-9",
        className,
      )}
      {...rest}
    />
  );
};
