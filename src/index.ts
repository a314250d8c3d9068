/** fretlay's door: everything public, by the step of the job it belongs to. */

// What a batch costs and a piece has to bring in.
export { type Batched, estimate } from './costing/estimate.ts';
export { type Channel, COMMON_RATES, type Rates } from './costing/rates.ts';
export { traceEstimate } from './costing/trace.ts';
// Plain shapes and data.
export type { FillRule } from './geometry/clipper.ts';
export type { Curve, Segment } from './geometry/curve.ts';
export type { Box, Line, Point, Region, Ring } from './geometry/shapes.ts';
// What goes wrong, as data.
export { FretlayError } from './issues/fretlay-error.ts';
export type { Issue, IssuePlace, Severity } from './issues/issue.ts';
export type { TextUnit } from './issues/lengths-in-text.ts';
export { batchFromJob, type JoinedJob } from './job/batch-from-job.ts';
export type { EntryPlace, JobBoard, ThicknessFound } from './job/board-schema.ts';
export {
  type DrawJobOptions,
  drawJob,
  type JobDrawings,
  type PrintedPages,
  type Sheet,
} from './job/draw-job.ts';
// The whole job and its files.
export { type Job, type JobInput, jobJsonSchema, USUAL_DESIGN } from './job/job-schema.ts';
export { type LaidJob, planWork, type WorkPlan } from './job/plan-work.ts';
export { type Rack, readRack } from './job/rack.ts';
export { type BatchName, rackAfter } from './job/rack-after.ts';
export { readJob, tryReadJob } from './job/read-job.ts';
export { readLayout } from './job/read-layout.ts';
export { type ReadPatternOptions, readPattern, tryReadPattern } from './job/read-pattern.ts';
export { checkOptions, type JobResult, type RunJobOptions, runJob } from './job/run-job.ts';
export { sawnParts } from './job/sawn-parts.ts';
export { drawingsOf, type FilesOfJob } from './job/stock-of-job.ts';
export { whatToBuy } from './job/what-to-buy.ts';
export type { AssemblyPlan, GlueJoint, StandingPart } from './model/assembly.ts';
export type { Batch, Demand, GrainRule, KeepRule, Pin, PlacingRules, SawReach } from './model/batch.ts';
export { type BoardsToTake, boardsToTake, isInPieces } from './model/boards-to-take.ts';

// Lengths, times and issues as people read and write them.
export { boardFeet, formatHours, formatMoney, quarterThickness } from './model/checked-figures.ts';
export { formatInches, formatLength, namesUnit, parseLength } from './model/checked-lengths.ts';
export { partKey } from './model/checked-part-names.ts';
export {
  counted,
  formatIssue,
  lengthsInText,
  plainLine,
  toldTogether,
  worstFirst,
} from './model/checked-telling.ts';
// The data between the steps.
export type {
  Blade,
  BladeUse,
  BoardPlan,
  Cut,
  CutEntry,
  CutKind,
  CutPlan,
  DrilledHole,
  Range,
  SawnPart,
} from './model/cut-plan.ts';
export type { Drawing, DrawingGroup, DrawingShape, ElementAccount } from './model/drawing.ts';
export type {
  BatchSize,
  CostLine,
  Estimate,
  Input,
  Price,
  TimeLine,
  WorkTime,
} from './model/estimate.ts';
export {
  type LayOutOptions,
  type LayOutProgress,
  type SearchWorker,
  type SearchWorkerEvents,
  USUAL_EFFORT,
} from './model/laying-out.ts';
export type {
  BoardAreas,
  Figures,
  LaidBoard,
  Layout,
  Offcut,
  Placement,
  Section,
  SetContent,
  Totals,
  TrimmedSides,
  Unplaced,
} from './model/layout.ts';
// Where the wood goes.
export type { MaterialAccount } from './model/material-account.ts';
export { notInBatch } from './model/not-in-batch.ts';
export type { Layer, LeftOutLayer, Measures, Part, Pattern } from './model/pattern.ts';
export type {
  Finding,
  FindingGroup,
  PartCheck,
  PatternCheck,
  PatternCheckOptions,
  SawFitting,
} from './model/pattern-check.ts';
export type { CheaperPurchase, Purchase, PurchaseItem, ThumbRule } from './model/purchase.ts';
export type { PartName } from './model/same-part.ts';
export type { SomeOf } from './model/stated.ts';
export type { Board, Trim, Usable, WholeBoard } from './model/stock.ts';
export { unpricedWood } from './model/unpriced-wood.ts';
export type { WoodBound } from './model/wood-bound.ts';
// Laying out and checking.
export { layOut } from './nesting/lay-out.ts';
export { type Verification, verifyLayout } from './nesting/verify.ts';
export { woodBounds } from './nesting/wood-bounds.ts';
export { COMMON_SAW, checkPattern } from './pattern/check-pattern.ts';
export { findingIssue } from './pattern/finding-issue.ts';
export { measureLayer, measurePart, measurePattern } from './pattern/measure.ts';
export type { InnerShapes } from './pattern/overlaps.ts';
export {
  type PatternOptions,
  type PatternResult,
  patternFromDrawing,
  tryPatternFromDrawing,
} from './pattern/pattern-from-drawing.ts';
export type { FinishedSize } from './pattern/scale.ts';
export type { LayerWood, PartInPiece } from './sawing/assembly/assembly-part.ts';
export { type AssemblyOptions, planAssembly } from './sawing/assembly/plan-assembly.ts';
// Sawing and gluing.
export { COMMON_BLADES } from './sawing/blades.ts';
export { type PlanCutsOptions, planCuts } from './sawing/plan-cuts.ts';
export { type Calibration, calibrate, type LoggedWork } from './sawing/time/calibrate.ts';
export { preparingAmounts } from './sawing/time/preparing-amounts.ts';
export {
  COMMON_TIMES,
  type TimeConstant,
  type TimeConstants,
  type TimeName,
  timeConstants,
} from './sawing/time/time-constants.ts';
export { amountsOf, type WorkAmounts, workTime } from './sawing/time/work-time.ts';
export { WOODS, type WoodFacts, woodFacts } from './sawing/wood-facts.ts';
// Drawing.
export type { TitleFacts } from './sheet/blocks/title-blocks.ts';
export type { BoardExtras } from './sheet/board/board-marks.ts';
export type { PartLook } from './sheet/board/part-look.ts';
export { PartDrawer, type PartMarks } from './sheet/board/part-marks.ts';
export { drawCheckPicture } from './sheet/check-picture.ts';
export type {
  ClipMark,
  GroupMark,
  LineMark,
  MapMark,
  Mark,
  MarkedDrawing,
  MarkRole,
  RingsMark,
  TextMark,
} from './sheet/marks/marks.ts';
export { type BoardsPdf, boardsToPdf, pagesToPdf, pageToSvg } from './sheet/page-files.ts';
export { boardPages, type PagesOptions, type SheetPage } from './sheet/pages.ts';
export type { PageOptions, Paper } from './sheet/paper/page-setup.ts';
export { partPages } from './sheet/part-pages.ts';
export { drawPlacementSheet, drawPlacementSheets } from './sheet/placement-sheet.ts';
export { drawReport, type ReportOptions } from './sheet/report/report.ts';
export type { ReportWork } from './sheet/report/work-sections.ts';
export { cutsCsv, partsCsv } from './sheet/tables.ts';
export { materialAccount } from './stock/material-account.ts';
export { withRemains } from './stock/with-offcuts.ts';
export type { DrawnSize } from './svg/page.ts';
// Reading and measuring a pattern.
export { textOfBytes, tryReadDrawingBytes } from './svg/read-bytes.ts';
export {
  type ReadDrawingOptions,
  type ReadDrawingResult,
  readDrawing,
  tryReadDrawing,
} from './svg/read-drawing.ts';
export type { DisplayUnit, LengthUnit, Parsed } from './units/length.ts';
export { PAPER_SIZES, type PaperName } from './units/paper.ts';
