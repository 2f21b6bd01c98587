import type { Child } from "hono/jsx";

interface PartProps {
  readonly id: string;
  readonly title: string;
  readonly children: Child;
}

/** A part of a long page; its heading leads to itself, so that it can be quoted by its address. */
export function Part({ id, title, children }: PartProps) {
  return (
    <section>
      <h2 id={id}>
        <a class="to-itself" href={`#${id}`}>
          {title}
        </a>
      </h2>
      {children}
    </section>
  );
}

/** A heading below that of a part. */
export function Below({ id, children }: { readonly id: string; readonly children: Child }) {
  return (
    <h3 id={id}>
      <a class="to-itself" href={`#${id}`}>
        {children}
      </a>
    </h3>
  );
}

/** What is folded away on a phone until it is asked for, or a link leads into it; elsewhere it stands open. */
export function Folded({ words, children }: { readonly words: string; readonly children: Child }) {
  return (
    <details class="folded">
      <summary>{words}</summary>
      {children}
    </details>
  );
}

/** The parts of a page, to go to. */
export function Contents({ of }: { readonly of: readonly (readonly [id: string, title: string])[] }) {
  return (
    <nav class="contents" aria-label="On this page">
      <ol>
        {of.map(([id, title]) => (
          <li>
            <a href={`#${id}`}>{title}</a>
          </li>
        ))}
      </ol>
    </nav>
  );
}
