package resize

// lattice solves linear equations in whole numbers.
//
// The whole solutions of E x = e are x = start + basis z over all whole z. They are found by column operations that keep
// whole numbers whole and bring E to the form of Hermite: see Cohen (1993), A Course in Computational Algebraic Number
// Theory, section 2.4 (from memory).

// equation is a row of E and its right side.
type equation struct {
	row []int64
	at  int64
}

// solveWhole returns one whole solution and a basis (one vector per free number); ok is false where there is none.
// Range: small systems with small coefficients, as cards have; values that would not fit are reported as no solution.
func solveWhole(n int, equations []equation) (start []int64, basis [][]int64, ok bool) {
	// u holds the columns of the transformation; column k of work is E u_k.
	u := make([][]int64, n)
	work := make([][]int64, n)
	for k := range n {
		u[k] = make([]int64, n)
		u[k][k] = 1
		work[k] = make([]int64, len(equations))
		for r, e := range equations {
			work[k][r] = e.row[k]
		}
	}
	start = make([]int64, n)
	rest := make([]int64, len(equations))
	for r, e := range equations {
		rest[r] = e.at
	}
	pivot := 0
	for r := range equations {
		if !clearRow(u, work, r, pivot) {
			return nil, nil, false
		}
		if pivot == n || work[pivot][r] == 0 {
			if rest[r] != 0 {
				return nil, nil, false
			}
			continue
		}
		if rest[r]%work[pivot][r] != 0 {
			return nil, nil, false
		}
		f := rest[r] / work[pivot][r]
		for k := range rest {
			rest[k] -= f * work[pivot][k]
		}
		for k := range start {
			start[k] += f * u[pivot][k]
		}
		pivot++
	}
	return start, u[pivot:], true
}

// largest bounds the numbers that may arise; beyond it an overflow would be near.
const largest = 1 << 40

// clearRow combines the columns from pivot on until at most the first of them is not zero in row r.
func clearRow(u, work [][]int64, r, pivot int) bool {
	for {
		// The smallest entry that is not zero goes first.
		best := -1
		count := 0
		for k := pivot; k < len(work); k++ {
			v := abs(work[k][r])
			if v == 0 {
				continue
			}
			if v > largest {
				return false
			}
			count++
			if best < 0 || v < abs(work[best][r]) {
				best = k
			}
		}
		if count == 0 {
			return true
		}
		u[pivot], u[best] = u[best], u[pivot]
		work[pivot], work[best] = work[best], work[pivot]
		if count == 1 {
			return true
		}
		for k := pivot + 1; k < len(work); k++ {
			f := work[k][r] / work[pivot][r]
			if f == 0 {
				continue
			}
			for i := range u[k] {
				u[k][i] -= f * u[pivot][i]
			}
			for i := range work[k] {
				work[k][i] -= f * work[pivot][i]
			}
		}
	}
}

func abs(v int64) int64 {
	if v < 0 {
		return -v
	}
	return v
}
