/** Wavy outlines of cubics side by side on a square page, made by a seeded generator, until the text is as long as asked for. */
export function wavyDrawing(bytes) {
  let state = 7;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  const paths = [];
  let length = 0;
  for (let i = 0; length < bytes; i++) {
    const [cx, cy] = [60 * (i % 40) + 30, 60 * Math.floor(i / 40) + 30];
    const points = 120;
    const radius = (k) => 20 + 6 * Math.sin((6 * Math.PI * k) / points) + 2 * next();
    const at = (k, r) => [
      cx + r * Math.cos((2 * Math.PI * k) / points),
      cy + r * Math.sin((2 * Math.PI * k) / points),
    ];
    const write = (p) => `${p[0].toFixed(3)},${p[1].toFixed(3)}`;
    let d = `M${write(at(0, 22))}`;
    for (let k = 1; k <= points; k++) {
      d += ` C${write(at(k - 0.66, radius(k)))} ${write(at(k - 0.33, radius(k)))} ${write(at(k % points, 22))}`;
    }
    paths.push(`<path id="p${i}" d="${d}Z"/>`);
    length += d.length;
  }
  return `<svg xmlns="http://www.w3.org/2000/svg" width="2400mm" height="2400mm" viewBox="0 0 2400 2400">${paths.join('\n')}</svg>`;
}
