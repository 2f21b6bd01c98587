/** The page where a test is added. */
export const SUBMIT = `
.submit fieldset.inner { border: 0; margin: .5rem 0 0; padding: .25rem 0; } .inner legend { font-size: .9rem; color: var(--soft); }
.submit .fields { align-items: start; margin: .5rem 0; }
.submit details { margin: .6rem 0; } .submit .field + .hint { margin-top: .4rem; } legend h2 { font-size: inherit; margin: 0; }
.with-unit button { flex: none; }
@media (max-width: 47.9rem) { .columns tr { display: flex; flex-wrap: wrap; gap: .3rem .9rem; align-items: baseline; } .columns tbody th { flex: 1 0 100%; } }
.submit .field > label.choice { display: flex; align-items: flex-start; color: inherit; font-size: 1rem; }
.inner .fields { grid-template-columns: repeat(auto-fill, minmax(min(100%, 9.5rem), 1fr)); gap: .5rem .75rem; } .inner .with-unit select { max-width: 55%; flex: 0 1 auto; }
.sides { grid-template-columns: repeat(3, minmax(0, 13rem)) !important; }
#preview:not(:empty) { border-top: 1px solid var(--line); margin-top: 1rem; padding-top: .25rem; }
.summary { border: 2px solid var(--bad); border-radius: 3px; padding: .25rem 1rem .5rem; margin: 1rem 0; }
.summary h2 { margin: .5rem 0; } .summary li { padding: .15rem 0; }
.slot { margin: .25rem 0 .75rem; } .kept { margin: 0; }
textarea { font-family: ui-monospace, Menlo, Consolas, monospace; font-size: .85rem; }
.choices { list-style: none; padding: 0; } .choices li { border-top: 1px solid var(--line); padding: .5rem 0; }
.submit .with-unit input.currency { width: 5rem; min-width: 4.5rem; flex: none; text-transform: uppercase; } .submit .currency::placeholder { color: var(--soft); }
.columns input { width: 4rem !important; } .columns select { width: auto; max-width: 100%; }
@media (min-width: 48rem) { .columns tbody th { min-width: 7rem; } .columns select { font-size: .9rem; padding-inline: .2rem; } }
.columns th small { display: block; }
.published, .new-key { border-left: 3px solid var(--ground); background: var(--tint); padding: .5rem .9rem; }
.new-key code { display: block; overflow-wrap: anywhere; font-size: 1.1rem; margin: .4rem 0; user-select: all; }
#f-key { font-family: ui-monospace, Menlo, Consolas, monospace; }
.findings { padding-left: 1.1rem; } .findings li { margin: .6rem 0; } .findings .next { display: block; color: var(--soft); }
`;
