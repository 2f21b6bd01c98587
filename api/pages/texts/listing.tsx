/** Text to copy, as it is; where it is wider than the page it scrolls, by keyboard too. */
export function Listing(it: { readonly label: string; readonly id?: string; readonly children: string }) {
  return (
    <section class="scroll listing" aria-label={it.label} tabindex={0}>
      <pre id={it.id}>
        <code>{it.children}</code>
      </pre>
    </section>
  );
}
