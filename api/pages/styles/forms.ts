/** Forms: one column on a phone, every control at least 24 px (here 40) high. */
export const FORMS = `
form { margin: .75rem 0; }
fieldset { border: 0; border-top: 1px solid var(--line); margin: 1.5rem 0 0; padding: .75rem 0 0; min-width: 0; }
legend { font-size: 1.2rem; padding: 0 .75rem 0 0; }
.fields { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 13rem), 1fr)); gap: .75rem 1.25rem; align-items: end; }
.field { min-width: 0; } .field > label, .field > .label { display: block; color: var(--soft); font-size: .9rem; }
.wide-field { grid-column: 1 / -1; } form.written .field { max-width: 44rem; }
input, select, textarea, button { font: inherit; color: inherit; max-width: 100%; }
input:not([type=checkbox], [type=radio]), select, textarea { width: 100%; min-height: 40px; padding: .35rem .5rem; background: var(--paper);
  border: 1px solid var(--edge); border-radius: 3px; }
input[type=checkbox], input[type=radio] { width: 24px; height: 24px; margin: 0 .5rem 0 0; vertical-align: middle; accent-color: var(--total); flex: none; }
.choice { display: flex; align-items: center; min-height: 40px; padding: .2rem 0; }
.with-unit { display: flex; gap: .4rem; } .with-unit select { width: auto; flex: none; } .with-unit input { min-width: 4rem; }
button, .button { display: inline-block; min-height: 40px; padding: .35rem 1rem; background: var(--paper); border: 1px solid var(--ink); border-radius: 3px; cursor: pointer; text-decoration: none; }
button.first { background: var(--press); border-color: var(--press); color: var(--paper); }
.hint { color: var(--soft); font-size: .9rem; margin: .15rem 0 0; }
.error { color: var(--bad); margin: .25rem 0 0; }
[aria-invalid=true] { border-color: var(--bad) !important; border-width: 2px !important; }
@media print { form { display: none; } }
`;
