/** How parts are to be drawn. */
export interface PartLook {
  /** Diameter of the drill for the holes, mm; left out, a ring of no meaning marks the place. */
  readonly drill?: number;
  /** `wide`: a broad band with a white line in it to saw along, for weak eyes. Default `thin`. */
  readonly line?: 'thin' | 'wide';
}
