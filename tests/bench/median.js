/** The middle value; of an even number of values the lower of the two. */
export function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) / 2)];
}

/** How a time grows with a size: the slope of the best line through both logarithms, by least squares. */
export function growthExponent(sizes, times) {
  const xs = sizes.map(Math.log);
  const ys = times.map(Math.log);
  const mean = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [mx, my] = [mean(xs), mean(ys)];
  const along = xs.reduce((sum, x, i) => sum + (x - mx) * (ys[i] - my), 0);
  return along / xs.reduce((sum, x) => sum + (x - mx) ** 2, 0);
}
