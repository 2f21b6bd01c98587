/** The list of results: a table where there is room for it, else a block a row; the scale of the bars stays in sight. */
export const LEADERBOARD = `
.particle-sizes { border-bottom: 1px solid var(--line); margin: 1rem 0 .5rem; } .particle-sizes small { color: var(--soft); }
.filters form { padding: 0 0 .5rem; border-bottom: 1px solid var(--line); }
.filters .code-of-money { width: 4.5rem; flex: none; min-width: 4.5rem; text-transform: uppercase; }
.filters .fields { grid-template-columns: repeat(auto-fill, minmax(min(100%, 10.5rem), 1fr)); gap: .5rem 1.25rem; }
.filters .last { display: flex; flex-wrap: wrap; align-items: center; gap: .25rem 1.75rem; margin: .4rem 0 0; }
.filters .last a { display: inline-flex; align-items: center; min-height: 40px; } .filters .hint { max-width: none; }
@supports selector(::details-content) {
  @media (min-width: 48.01rem) {
    .filters > summary { display: none; }
    .filters::details-content { content-visibility: visible; block-size: auto; }
  }
}
.board { margin: .5rem 0 0; }
.board table { table-layout: auto; }
.board thead { position: sticky; top: 0; background: var(--paper); z-index: 1; }
.board thead th { vertical-align: bottom; }
.board th, .board td { overflow-wrap: normal; } .board .cleaner { overflow-wrap: anywhere; min-width: 10rem; } .board .who { min-width: 9rem; }
.board th.cadr, .board td.cadr { width: 13.5rem; padding-right: 1.25rem; }
.board .tick label { display: flex; align-items: center; min-height: 24px; cursor: pointer; } .board .tick span { display: none; }
.board .rank { white-space: nowrap; }
.board .who { line-height: 1.4; }
.board .place { font-size: 1.05rem; }
.bar { overflow: visible; } .board thead .bar { margin-top: .1rem; }
.board { counter-reset: ticked; } .board input:checked { counter-increment: ticked; }
.compare { padding: .5rem 0; margin: 0; } .compare small { color: var(--soft); margin-left: .5rem; }
.board:has(input:checked) .compare { position: sticky; bottom: 0; background: var(--paper); border-top: 1px solid var(--line); z-index: 1; }
.board:has(input:checked) .compare small::before { content: counter(ticked) " ticked; "; }
.list-says p, .list-count { max-width: none; margin: .35rem 0; }
html:has(.board) { scroll-padding: 4rem 0 0; } html:has(.board input:checked) { scroll-padding: 4rem 0 4.5rem; }
.whisker { stroke: var(--soft); stroke-width: 1; fill: none; } .whisker-first { stroke: var(--total); stroke-width: 1.5; }
.cleaner-mark { fill: var(--paper); stroke: var(--soft); stroke-width: 1.5; } .cleaner-mark-first { fill: var(--total); stroke: var(--total); }
@media (max-width: 62rem) {
  .board table, .board caption, .board thead, .board tbody, .board thead tr { display: block; }
  .board thead th:not(.cadr) { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; padding: 0; border: 0; }
  .board th.cadr, .board td.cadr { display: block; width: auto; padding-right: 0; }
  .board tbody tr { display: grid; grid-template-columns: 1fr 1fr; gap: .1rem 1.5rem; padding: .8rem 0; border-bottom: 1px solid var(--line); }
  .board tbody td, .board tbody th { border: 0; padding: 0; }
  .board .who span { display: inline; } .board .who span:not(:last-child)::after { content: ", "; }
  .board td[data-head]::before { content: attr(data-head) ": "; color: var(--soft); font-size: .9rem; }
  .board .tick { order: 1; justify-self: end; } .board .tick span { display: inline; color: var(--soft); font-size: .9rem; }
  .board .rank { align-self: center; }
  .board .cleaner { order: 2; grid-column: 1 / -1; font-size: 1.1rem; } .board .cleaner small { font-size: .9rem; }
  .board .cadr { order: 3; grid-column: 1 / -1; } .board td:not(.rank, .tick, .cadr) { order: 4; }
}
@media (max-width: 34rem) {
  .filters .fields { grid-template-columns: 1fr 1fr; gap: .4rem .9rem; } .filters .field:last-child { grid-column: 1 / -1; } .filters .code-of-money { width: 3.8rem; min-width: 3.6rem; padding: .35rem .4rem; }
  .particle-sizes { display: grid; grid-template-columns: 1fr 1fr; gap: 0 .9rem; margin: .5rem 0 .25rem; } .particle-sizes small { display: block; line-height: 1.25; }
  .board tbody tr { display: flex; flex-wrap: wrap; gap: 0 .9rem; padding: .5rem 0 .6rem; align-items: baseline; line-height: 1.4; }
  .board .rank { flex: 1; } .board .cleaner, .board td.cadr, .board .who { flex: 1 0 100%; } .board .cleaner .line { display: inline; margin-left: .4rem; }
  .board tbody td:not(.rank, .tick, .cadr) { font-size: .92rem; } .board tbody td:not(.who) .line { display: inline; margin-left: .3rem; }
  .board caption { padding: .3rem 0 0; }
}
@media (max-height: 30rem) { .board thead, .board:has(input:checked) .compare { position: static; } }
@media print { .board .tick, .compare, .filters { display: none; } .board thead { position: static; } }
`;
