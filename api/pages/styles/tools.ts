/** Compare, my room, plan a test: sentences with figures in them, sets of cleaners, differences. */
export const TOOLS = `
input.short:not([type=checkbox], [type=radio]) { width: 4.5rem; min-height: 32px; padding: .15rem .4rem; }
.tool .fields { align-items: start; }
.target { display: grid; grid-template-columns: minmax(13rem, max-content) 1fr; gap: 0 1rem; align-items: center; padding: .25rem 0; }
.target .error { grid-column: 2; }
.sets td.air { min-width: 15rem; }
.sets th.delivers, .sets td.delivers { width: 14rem; }
.need { stroke: var(--bad); stroke-width: 2; stroke-dasharray: 3 2; }
.day ol { max-width: 46rem; padding-left: 1.5rem; } .day li { margin: .5rem 0; } .day b { font-weight: normal; font-style: italic; }
@media print { .day { break-before: page; } .day li, .sets tr { break-inside: avoid; } .sets details::details-content { content-visibility: visible; block-size: auto; } }
@media (max-width: 62rem) {
  .target { grid-template-columns: 1fr; } .target .error { grid-column: 1; } .target > span { padding-left: 2rem; }
  .sets, .sets caption, .sets thead, .sets tbody, .sets tr, .sets td, .sets tbody th, .sets th.delivers { display: block; }
  .sets thead th:not(.delivers) { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; padding: 0; border: 0; }
  .sets th.delivers, .sets td.delivers { width: auto; }
  .sets tbody tr { border-bottom: 1px solid var(--line); padding: .8rem 0; }
  .sets tbody td, .sets tbody th { border: 0; padding: .1rem 0; }
  .sets tbody tr { display: grid; grid-template-columns: 1fr 1fr; gap: .1rem 1.5rem; } .sets th.cleaner, .sets td.delivers { grid-column: 1 / -1; }
  .sets th.delivers { padding-right: 0; }
  .sets .inline .line { display: inline; } .sets .inline .line::before { content: " · "; } .sets .inline .line:first-child::before { content: none; }
  .sets tbody th { font-size: 1.1rem; } .sets tbody th small { font-size: .9rem; }
  .sets td[data-head]::before { content: attr(data-head) ": "; color: var(--soft); font-size: .9rem; }
}
.sides + details, .pairs + details { margin-top: .6rem; }
@media (max-width: 34rem) {
  .pairs { grid-template-columns: 1fr 1fr; gap: .6rem .9rem; }
  .sets tbody tr { display: block; }
}
`;
