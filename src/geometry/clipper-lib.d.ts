/** The part of clipper-lib 6.4.2 that fretlay calls; the package ships no types. */
declare module 'clipper-lib' {
  export interface IntPoint {
    X: number;
    Y: number;
  }
  export type Path = IntPoint[];
  export type Paths = Path[];
  export interface PolyNode {
    Contour(): Path;
    Childs(): PolyNode[];
  }
  export type PolyTree = PolyNode;

  /** A side of a path, as far as it is touched here. */
  export interface Edge {
    readonly Bot: IntPoint;
    readonly Curr: IntPoint;
    OutIdx: number;
    /** The next of those that are met at one height. */
    readonly NextInAEL: Edge | null;
  }
  /** Where two sides of a path part upwards; the library keeps them as a linked list, greatest Y first. */
  export interface LocalMinimum {
    readonly Y: number;
    readonly LeftBound: Edge | null;
    readonly RightBound: Edge | null;
    Next: LocalMinimum | null;
  }
  /** A point of an outline in the making, in a ring. */
  export interface OutPoint {
    readonly Pt: IntPoint;
    Next: OutPoint;
    Prev: OutPoint;
  }
  /** An outline in the making; one without points has become part of another. */
  export interface OutRecord {
    Pts: OutPoint | null;
    IsHole: boolean;
    readonly IsOpen: boolean;
    FirstLeft: OutRecord | null;
  }

  class Clipper {
    static readonly ioStrictlySimple: number;
    constructor(options?: number);
    m_MinimaList: LocalMinimum | null;
    m_CurrentLM: LocalMinimum | null;
    m_Scanbeam: object | null;
    m_ActiveEdges: Edge | null;
    readonly m_PolyOuts: OutRecord[];
    InsertLocalMinima(minimum: LocalMinimum): void;
    InsertScanbeam(y: number): void;
    Reset(): void;
    Clear(): void;
    DisposeLocalMinimaList(): void;
    DoSimplePolygons(): void;
    ProcessIntersections(height: number): boolean;
    AppendPolygon(edge: Edge, other: Edge): void;
    CreateOutRec(): OutRecord;
    UpdateOutPtIdxs(outline: OutRecord): void;
    PointInPolygon(point: IntPoint, outline: OutPoint): number;
    Poly2ContainsPoly1(inner: OutPoint | null, outer: OutPoint | null): boolean;
    OutRec1RightOfOutRec2(outline: OutRecord, other: OutRecord): boolean;
    FixupFirstLefts1(old: OutRecord, made: OutRecord): void;
    FixupFirstLefts2(old: OutRecord, made: OutRecord): void;
    AddPaths(paths: Paths, type: number, closed: boolean): boolean;
    Execute(operation: number, solution: Paths | PolyTree, subjectFill: number, clipFill: number): boolean;
    static Orientation(path: Path): boolean;
  }
  class ClipperOffset {
    constructor(miterLimit: number, arcTolerance: number);
    readonly m_destPolys: Paths;
    AddPaths(paths: Paths, join: number, end: number): void;
    FixOrientations(): void;
    DoOffset(delta: number): void;
  }
  const ClipperLib: {
    ClipperBase: { readonly Unassigned: number };
    Clipper: typeof Clipper;
    ClipperOffset: typeof ClipperOffset;
    PolyTree: new () => PolyTree;
    ClipType: { ctIntersection: 0; ctUnion: 1; ctDifference: 2 };
    PolyType: { ptSubject: 0; ptClip: 1 };
    PolyFillType: { pftEvenOdd: 0; pftNonZero: 1; pftPositive: 2 };
    JoinType: { jtRound: 1 };
    EndType: { etClosedPolygon: 4 };
  };
  export default ClipperLib;
}
