// Package dense solves the small systems of equations that poses, springy folds and sizes lead to: symmetric positive
// definite matrices, each as one slice of n·n numbers, row by row.
//
//	A = L Lᵀ        Factor    L in the lower triangle, what is above the diagonal left as it was
//	L Lᵀ x = b      Solve     down through L, then up through Lᵀ
//	A⁻¹             Inverse   column by column
//
// Method: Cholesky's factor, column by column (Golub and Van Loan, Matrix Computations, section 4.2, from memory). The
// tests compare with gonum.
//
// Approximate: floats, and sums are taken in the order of their index, so that the same matrix gives the same bits
// wherever it is solved.
package dense
