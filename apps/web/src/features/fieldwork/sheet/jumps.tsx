/** To the parts of a long sheet, each by a key that a glove hits. */
export const Jumps = () => (
  <nav aria-label="On this sheet" className="jumps">
    <a href="#to-read">To be read</a>
    <a href="#items">Items</a>
    <a href="#end">End of the visit</a>
  </nav>
);
