import { STYLES } from "../../citation/cite.ts";
import type { Reference } from "../../citation/reference.ts";
import { noteOf } from "../../citation/reference.ts";
import { CARD } from "../../pictures/card.ts";

interface Props {
  readonly reference: Reference;
  /** Address of the page that stands for it, and of the pinned result whose picture is shown. */
  readonly page: string;
  readonly publicUrl: string;
  readonly path: string;
}

/** What a forum or messenger shows of a link: Open Graph tags with the picture, and where oEmbed answers. */
export function LinkPreview({ reference, page, publicUrl, path }: Props) {
  const picture = `${publicUrl}${path}/card.png`;
  const description = noteOf(reference);
  return (
    <>
      <meta name="description" content={description} />
      <meta property="og:type" content="article" />
      <meta property="og:site_name" content="Motefall" />
      <meta property="og:title" content={reference.title} />
      <meta property="og:description" content={description} />
      <meta property="og:url" content={page} />
      <meta property="og:image" content={picture} />
      <meta property="og:image:type" content="image/png" />
      <meta property="og:image:width" content={String(CARD.width)} />
      <meta property="og:image:height" content={String(CARD.height)} />
      <meta property="og:image:alt" content={STYLES.plain.write(reference)} />
      <meta name="twitter:card" content="summary_large_image" />
      <link
        rel="alternate"
        type="application/json+oembed"
        title={reference.title}
        href={`${publicUrl}/oembed?${new URLSearchParams({ url: page, format: "json" })}`}
      />
    </>
  );
}
