import type { AssemblyPlan } from '../../model/assembly.ts';
import type { CutPlan } from '../../model/cut-plan.ts';
import type { BatchSize, Estimate } from '../../model/estimate.ts';
import type { Pattern } from '../../model/pattern.ts';
import type { Calibration } from '../../sawing/time/calibrate.ts';
import type { DisplayUnit } from '../../units/length.ts';
import { assemblySection } from './assembly-section.ts';
import { costsSection } from './costs-section.ts';
import { cutPlanSection } from './cut-plan-section.ts';
import type { Html } from './html.ts';

/** What follows from a layout, for the report. */
export interface ReportWork {
  readonly pattern: Pattern;
  readonly cutPlan: CutPlan;
  readonly assembly: AssemblyPlan;
  readonly estimate: Estimate;
  readonly batchSizes: readonly BatchSize[];
  /** Which times are fitted to the maker's log; undefined without one. */
  readonly calibration?: Pick<Calibration, 'fitted'> | undefined;
}

/**
 * The sections on sawing, gluing and costs. Of a layout that breaks a rule the cuts are told, to find the fault with, but
 * neither hours nor money: they would be those of no piece.
 */
export function workSections(work: ReportWork, unit: DisplayUnit, holds = true): readonly Html[] {
  return [
    cutPlanSection(work.cutPlan, unit),
    // Nothing goes together where no layer was said to be of any wood.
    ...(work.assembly.parts.length === 0 ? [] : [assemblySection(work.pattern, work.assembly, unit)]),
    ...(holds ? [costsSection(work.estimate, work.batchSizes, work.calibration?.fitted ?? [], unit)] : []),
  ];
}
