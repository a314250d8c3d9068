/**
 * Published mean densities of strip packing methods on open instances (ESICUP), percent: Elkeran 2013, guided cuckoo
 * search, European Journal of Operational Research 231, 757-769 (runs of tens of minutes), and Gardeyn, Vanden Berghe,
 * Wauters 2025 (20 minutes, three threads).
 */
export const PUBLISHED = {
  albano: { elkeran2013: 87.5, gardeyn2025: 89.5 },
  dagli: { elkeran2013: 87.1, gardeyn2025: 89.3 },
  fu: { elkeran2013: 90.7, gardeyn2025: 92.2 },
  jakobs1: { elkeran2013: 88.9, gardeyn2025: 89.1 },
  shapes0: { elkeran2013: 67.3, gardeyn2025: 68.6 },
  shapes1: { elkeran2013: 73.8, gardeyn2025: 75.7 },
  blaz1_shapes2: { elkeran2013: 82.4, gardeyn2025: 84.7 },
  shirts: { elkeran2013: 87.6, gardeyn2025: 89.7 },
};
