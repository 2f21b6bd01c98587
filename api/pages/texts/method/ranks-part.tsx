import { Below, Part } from "../part.tsx";

/** What may be said of an order. */
export function RanksPart() {
  return (
    <Part id="ranks" title="Ranks, ties and comparisons">
      <p>
        The list is sorted by value, but a rank is a range. All entries of a band get intervals that hold together with
        95&nbsp;% (Šidák 1967), wider than their own. Best rank = 1 + how many of those shown lie wholly above; worst =
        how many are shown − how many lie wholly below (Klein and others 2020). All ranges together hold the true ranks
        at least 95 times in 100. A range says where one entry may stand; which of two is the stronger is told by
        comparing them, and where their intervals overlap the list leaves it open. Equal figures share a rank, marked =.
      </p>
      <Below id="frontier">Quiet and strong</Below>
      <p>
        An entry is on the frontier if nothing else is surely both quieter and stronger: no other noise interval wholly
        under its own with a rate wholly over its own, each by its own 95&nbsp;% interval. Where no noise is known there
        is no place on it. An entry of which little is known is easily on it, for nothing is surely better.
      </p>
      <Below id="comparing">Comparing two</Below>
      <p>
        Measured in the same room, two cleaners share the error of its volume and often of one natural decay. In their
        difference these mostly cancel (generalised least squares). How far a laboratory’s own place in the spread
        cancels too is learnt from those who measured both, and one such pair proves little.
      </p>
    </Part>
  );
}
