/** Tables, which on a narrow screen (class "stacks") become a block a row, each cell under the words of its head. */
export const TABLES = `
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums lining-nums; }
caption { text-align: left; padding: .75rem 0 .25rem; color: var(--soft); }
th, td { text-align: left; vertical-align: baseline; padding: .45rem .9rem .45rem 0; border-bottom: 1px solid var(--line); overflow-wrap: break-word; }
th { font-weight: normal; color: var(--soft); font-size: .9rem; }
tbody th { color: inherit; font-size: inherit; }
th.number, td.number { text-align: right; }
td.number .q { white-space: nowrap; }
td small, dd small, th small { color: var(--soft); }
.scroll { overflow-x: auto; }
@media (max-width: 47.9rem) {
  .stacks, .stacks caption, .stacks tbody, .stacks tr, .stacks td, .stacks th { display: block; }
  .stacks thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .stacks tr { border-bottom: 1px solid var(--line); padding: .6rem 0; }
  .stacks td, .stacks tbody th, .stacks td.number { border: 0; padding: .1rem 0; text-align: left; }
  .stacks td[data-head]::before { content: attr(data-head) ": "; color: var(--soft); font-size: .9rem; }
}
`;
