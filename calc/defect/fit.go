package defect

import "math"

// fit is a polynomial through points by least squares, on a basis that is orthonormal over these very points: residuals and the
// leverage of each point then come without solving anything.
type fit struct {
	basis    [4][]float64
	residual []float64 // of y less the polynomial
	leverage []float64
	rss      float64
	terms    int
}

// of fits y(x) by a polynomial of so many terms. Weight 0 leaves a point out of the fit and still gives its residual.
func (f *fit) of(x, y []float64, terms int) {
	n := len(x)
	f.terms = terms
	f.residual = append(f.residual[:0], y...)
	f.leverage = append(f.leverage[:0], y...)
	clear(f.leverage)
	for k := range terms {
		b := append(f.basis[k][:0], x...)
		f.basis[k] = b
		if k == 0 {
			for i := range b {
				b[i] = 1
			}
		} else {
			for i := range b {
				b[i] = x[i] * f.basis[k-1][i]
			}
		}
		for range 2 { // twice is enough (Kahan and Parlett)
			for j := range k {
				a, dot := f.basis[j], 0.0
				for i := range n {
					dot += a[i] * b[i]
				}
				for i := range n {
					b[i] -= dot * a[i]
				}
			}
		}
		norm := 0.0
		for i := range n {
			norm += b[i] * b[i]
		}
		if norm = math.Sqrt(norm); norm < 1e-12 {
			f.terms = k
			break
		}
		dot := 0.0
		for i := range n {
			b[i] /= norm
			dot += b[i] * f.residual[i]
			f.leverage[i] += b[i] * b[i]
		}
		for i := range n {
			f.residual[i] -= dot * b[i]
		}
	}
	f.rss = 0
	for i := range n {
		f.rss += f.residual[i] * f.residual[i]
	}
}

// farthest finds the point that least belongs to the others: its distance from the polynomial that the others make, and that
// distance by how far the others scatter. usual is the scatter of sound points, which counts as so many points seen before, so
// that few points that happen to lie well do not make a great deviation of a small one.
func (f *fit) farthest(usual float64) (point int, distance, deviations float64) {
	const before = 3
	n := len(f.residual)
	free := n - f.terms - 1
	if free < 1 {
		return 0, 0, 0
	}
	for i := range n {
		rest := 1 - f.leverage[i]
		if rest < 1e-9 {
			continue // the polynomial goes through this point whatever it is
		}
		e := f.residual[i]
		others := max(f.rss-e*e/rest, 0)
		scatter := math.Sqrt((others + before*usual*usual) / (float64(free) + before))
		if t := math.Abs(e) / math.Sqrt(rest) / scatter; t > deviations {
			point, distance, deviations = i, e/rest, t
		}
	}
	return point, distance, deviations
}
