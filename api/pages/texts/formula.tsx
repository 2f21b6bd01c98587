import type { Child } from "hono/jsx";

/** A formula on a line of its own, in MathML, which browsers draw by themselves. */
export function Formula({ children }: { readonly children: Child }) {
  return (
    <div class="formula">
      <math displaystyle="true">
        <mrow>{children}</mrow>
      </math>
    </div>
  );
}

/** A quantity, with what tells it from others set below it. */
export function Name({ of, at }: { readonly of: string; readonly at?: string }) {
  if (at === undefined) return <mi>{of}</mi>;
  return (
    <msub>
      <mi>{of}</mi>
      <mtext>{at}</mtext>
    </msub>
  );
}

export function Power({ of, to }: { readonly of: Child; readonly to: Child }) {
  return (
    <msup>
      <mrow>{of}</mrow>
      <mrow>{to}</mrow>
    </msup>
  );
}

export function Over({ top, bottom }: { readonly top: Child; readonly bottom: Child }) {
  return (
    <mfrac>
      <mrow>{top}</mrow>
      <mrow>{bottom}</mrow>
    </mfrac>
  );
}

/** Signs between quantities. */
export function Sign({ children }: { readonly children: Child }) {
  return <mo>{children}</mo>;
}
