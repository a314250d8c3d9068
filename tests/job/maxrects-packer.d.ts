/** The part of maxrects-packer that the comparison calls; its main entry does not load as a module in Node. */
declare module 'maxrects-packer/dist/maxrects-packer.mjs' {
  interface Rectangle {
    width: number;
    height: number;
    x: number;
    y: number;
  }
  export class MaxRectsPacker {
    constructor(
      width: number,
      height: number,
      padding: number,
      options: { smart: boolean; pot: boolean; square: boolean; allowRotation: boolean },
    );
    addArray(rectangles: Rectangle[]): void;
    readonly bins: { readonly rects: Rectangle[] }[];
  }
}
