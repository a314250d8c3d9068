/**
 * Solves A x = b for a symmetric positive (semi-)definite matrix by Cholesky's factorisation (A = L Lt; Golub, Van Loan,
 * "Matrix Computations", section 4.2, from memory). Of the matrix only the lower half is read. An unknown that the matrix says nothing
 * about is left at 0: in a log the amounts of two kinds of work may always go together, and then only one is fitted.
 *
 * @param matrix rows of A, as many as `right` has numbers; neither is changed
 * @returns x, in the unit of b over that of A
 */
export function solveSymmetric(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const count = right.length;
  const lower = matrix.map((row) => row.map(() => 0));
  const known = matrix.map(() => true);
  for (let i = 0; i < count; i++) {
    for (let k = 0; k <= i; k++) {
      let sum = matrix[i][k];
      for (let j = 0; j < k; j++) sum -= lower[i][j] * lower[k][j];
      if (i > k) lower[i][k] = known[k] ? sum / lower[k][k] : 0;
      // What rounding leaves of a pivot that is truly 0 stands against the size of its own row.
      else if (sum > 1e-12 * Math.max(1, matrix[i][i])) lower[i][i] = Math.sqrt(sum);
      else known[i] = false;
    }
  }
  // Forwards L y = b, then backwards Lt x = y; unknowns without a pivot are passed over in both.
  const half = new Array<number>(count).fill(0);
  for (let i = 0; i < count; i++) {
    if (!known[i]) continue;
    let sum = right[i];
    for (let j = 0; j < i; j++) sum -= lower[i][j] * half[j];
    half[i] = sum / lower[i][i];
  }
  const solution = new Array<number>(count).fill(0);
  for (let i = count - 1; i >= 0; i--) {
    if (!known[i]) continue;
    let sum = half[i];
    for (let j = i + 1; j < count; j++) sum -= lower[j][i] * solution[j];
    solution[i] = sum / lower[i][i];
  }
  return solution;
}
