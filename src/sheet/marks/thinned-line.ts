import type { Line, Point } from '../../geometry/shapes.ts';

/**
 * A line as a printer needs it: whole units, and no vertex that lies within a unit of the line without it. Curves come
 * with many more points than paper shows, and pages full of them are what takes time to write, to pack and to print.
 * Greedy, in one pass over the points, by the sleeve that all points left out must lie in (Zhao, Saalfeld 1997).
 */
export class ThinnedLine {
  /** Coordinates in units from the origin, one point after the other; the first `count` numbers are good. */
  coordinates = new Int32Array(1 << 10);
  count = 0;

  /**
   * @param closed true when the last point joins the first; the first is not repeated
   * @param origin where the units are counted from, mm
   * @param unitsPerMm how many units are a millimetre
   */
  set(line: Line, closed: boolean, [originX, originY]: Point, unitsPerMm: number): void {
    this.count = 0;
    const length = line.length;
    if (length === 0) return;
    if (2 * length > this.coordinates.length) this.coordinates = new Int32Array(4 * length);
    // The vertex kept last, and the one looked at last, in units that are not rounded yet.
    let keptX = (line[0][0] - originX) * unitsPerMm;
    let keptY = (line[0][1] - originY) * unitsPerMm;
    let lastX = keptX;
    let lastY = keptY;
    this.#keep(keptX, keptY);
    // The sleeve: directions from the kept vertex that pass all points since, each within a unit.
    let isOpen = true;
    let lowX = 0;
    let lowY = 0;
    let highX = 0;
    let highY = 0;
    let reach = 0;
    const steps = closed ? length : length - 1;
    for (let step = 1; step <= steps; step++) {
      const point = line[step === length ? 0 : step];
      const x = (point[0] - originX) * unitsPerMm;
      const y = (point[1] - originY) * unitsPerMm;
      let dx = x - keptX;
      let dy = y - keptY;
      let distance = Math.sqrt(dx * dx + dy * dy);
      const isInSleeve = isOpen || (lowX * dy - lowY * dx >= 0 && dx * highY - dy * highX >= 0);
      // A line that turns back leaves a point beyond the end of its side.
      if (!isInSleeve || distance < reach) {
        keptX = lastX;
        keptY = lastY;
        this.#keep(keptX, keptY);
        isOpen = true;
        reach = 0;
        dx = x - keptX;
        dy = y - keptY;
        distance = Math.sqrt(dx * dx + dy * dy);
      }
      if (distance > 1) {
        const along = Math.sqrt(distance * distance - 1);
        const newLowX = dx * along + dy;
        const newLowY = dy * along - dx;
        const newHighX = dx * along - dy;
        const newHighY = dy * along + dx;
        if (isOpen || lowX * newLowY - lowY * newLowX > 0) {
          lowX = newLowX;
          lowY = newLowY;
        }
        if (isOpen || newHighX * highY - newHighY * highX > 0) {
          highX = newHighX;
          highY = newHighY;
        }
        isOpen = false;
      }
      reach = distance;
      lastX = x;
      lastY = y;
    }
    // The end of an open line, and the way back to the start of a closed one, are there anyway.
    if (!closed && length > 1) this.#keep(lastX, lastY);
  }

  #keep(x: number, y: number): void {
    this.coordinates[this.count++] = Math.round(x);
    this.coordinates[this.count++] = Math.round(y);
  }
}
