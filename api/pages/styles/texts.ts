/** Pages to read: headings that lead to themselves, contents, formulas, lists of codes, and how they print. */
export const TEXTS = `
.to-itself { display: inline-block; text-decoration: none; min-height: 24px; } .to-itself:hover { text-decoration: underline; }
.contents { border-left: 3px solid var(--line); padding: .1rem 0 .1rem 1rem; margin: 1rem 0; }
.contents ol { columns: 17rem; column-gap: 2rem; margin: 0; padding: 0; list-style: none; width: 100%; max-width: 52rem; }
.contents li { margin: 0; break-inside: avoid; } .contents a { display: inline-block; padding: .15rem 0; min-height: 28px; }
.formula { margin: .75rem 0 .75rem 1.5rem; font-size: 1.1rem; } .formula + .formula { margin-top: -.25rem; }
.text [id] { scroll-margin-top: .75rem; } .text :target { background: var(--tint); }
.text .entries { display: block; max-width: 44rem; } .text .entries dt { color: inherit; margin-top: .9rem; } .text .entries dd { margin: 0; }
.text .entries dt b { font-weight: normal; text-decoration: none; } .text .entries dt b + code { color: var(--soft); }
.text sub, .text sup { line-height: 0; } .text table { max-width: 44rem; } .text .listing { max-width: 52rem; }
.reference details [id] { scroll-margin-top: 2.75rem; }
.reference ul { margin: .25rem 0; padding-left: 1.25rem; max-width: 52rem; } .reference li { margin: .1rem 0; } .reference h3 { font-style: normal; margin-top: 1.75rem; } .reference details { margin: .1rem 0; }
.text .next { color: var(--soft); }
.text .narrow-table { width: auto; max-width: 100%; } .text .narrow-table th, .text .narrow-table td { padding-right: 2rem; }
.text .paper { width: auto; } .text .paper td, .text .paper th { padding: .15rem 1rem .15rem 0; }
.text .steps li { margin: .6rem 0; font-variant-numeric: tabular-nums lining-nums; }
.text .said { border-left: 3px solid var(--line); padding: .1rem 0 .1rem .9rem; }
@supports selector(::details-content) {
  @media (min-width: 48.01rem), print { .folded > summary { display: none; } .folded::details-content { content-visibility: visible; block-size: auto; } }
}
.listing { margin: .75rem 0; background: var(--tint); max-width: 60rem; } .listing pre { margin: 0; overflow: visible; width: max-content; min-width: 100%; background: none; }
@media (max-width: 34rem) { .listing pre { white-space: pre-wrap; width: auto; overflow-wrap: anywhere; } .formula { margin-left: .25rem; font-size: 1rem; } .text .paper td, .text .paper th { padding-right: .6rem; font-size: .85rem; } }
@media print {
  .contents { display: none; } .text h2, .text h3, .text dt { break-after: avoid; } .text tr, .text dd, .text li, .formula { break-inside: avoid; }
  .reference summary { display: block; } .reference details::details-content { content-visibility: visible; block-size: auto; }
  .text .scroll { overflow: visible; } .listing pre { white-space: pre-wrap; width: auto; }
}
`;
