package ode

import "math"

// A Step is one accepted step.
type Step struct {
	From, To   float64
	start, end []float64
	k          [7][]float64 // rates at the stages; the last is the rate at the end
}

// State is component i at the end of the step.
func (s *Step) State(i int) float64 { return s.end[i] }

// Start is component i at the start of the step.
func (s *Step) Start(i int) float64 { return s.start[i] }

// Crests says whether component i rises at the start of the step and falls at its end, so that its top lies within.
func (s *Step) Crests(i int) bool { return s.k[0][i] > 0 && s.k[6][i] < 0 }

// At interpolates component i within the step, to fourth order.
func (s *Step) At(t float64, i int) float64 {
	h := s.To - s.From
	a := (t - s.From) / h
	rise := s.end[i] - s.start[i]
	bend := h*s.k[0][i] - rise
	r4 := rise - h*s.k[6][i] - bend
	r5 := h * (d1*s.k[0][i] + d3*s.k[2][i] + d4*s.k[3][i] + d5*s.k[4][i] + d6*s.k[5][i] + d7*s.k[6][i])
	return s.start[i] + a*(rise+(1-a)*(bend+a*(r4+(1-a)*r5)))
}

// The tableau of Dormand & Prince: nodes c, stages a, error e = b - b̂, interpolant d.
const (
	c2, c3, c4, c5 = 1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9

	a21                     = 1.0 / 5
	a31, a32                = 3.0 / 40, 9.0 / 40
	a41, a42, a43           = 44.0 / 45, -56.0 / 15, 32.0 / 9
	a51, a52, a53, a54      = 19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729
	a61, a62, a63, a64, a65 = 9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656
	b1, b3, b4, b5, b6      = 35.0 / 384, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84
	e1, e3, e4, e5, e6, e7  = 71.0 / 57600, -71.0 / 16695, 71.0 / 1920, -17253.0 / 339200, 22.0 / 525, -1.0 / 40
	d1, d3                  = -12715105075.0 / 11282082432, 87487479700.0 / 32700410799
	d4, d5                  = -10690763975.0 / 1880347072, 701980252875.0 / 199316789632
	d6, d7                  = -1453857185.0 / 822651844, 69997945.0 / 29380423
)

// stepper holds the step in hand and its scratch memory.
type stepper struct {
	f    System
	tol  Tolerance
	step Step
	mid  []float64
}

func newStepper(f System, y []float64, from float64, tol Tolerance) *stepper {
	n := len(y)
	memory := make([]float64, 10*n)
	take := func() []float64 {
		part := memory[:n:n]
		memory = memory[n:]
		return part
	}
	s := &stepper{f: f, tol: tol, mid: take()}
	s.step = Step{From: from, start: take(), end: take()}
	for i := range s.step.k {
		s.step.k[i] = take()
	}
	copy(s.step.start, y)
	f(from, s.step.start, s.step.k[0])
	return s
}

// advance makes the end of the step the start of the next. The rate there is already known.
func (s *stepper) advance() {
	s.step.From = s.step.To
	s.step.start, s.step.end = s.step.end, s.step.start
	s.step.k[0], s.step.k[6] = s.step.k[6], s.step.k[0]
}

// try makes a step of h and returns its error by the tolerance: at most 1 is good.
func (s *stepper) try(h float64) float64 {
	st := &s.step
	t, y, k, m := st.From, st.start, &st.k, s.mid
	for i := range y {
		m[i] = y[i] + h*a21*k[0][i]
	}
	s.f(t+c2*h, m, k[1])
	for i := range y {
		m[i] = y[i] + h*(a31*k[0][i]+a32*k[1][i])
	}
	s.f(t+c3*h, m, k[2])
	for i := range y {
		m[i] = y[i] + h*(a41*k[0][i]+a42*k[1][i]+a43*k[2][i])
	}
	s.f(t+c4*h, m, k[3])
	for i := range y {
		m[i] = y[i] + h*(a51*k[0][i]+a52*k[1][i]+a53*k[2][i]+a54*k[3][i])
	}
	s.f(t+c5*h, m, k[4])
	for i := range y {
		m[i] = y[i] + h*(a61*k[0][i]+a62*k[1][i]+a63*k[2][i]+a64*k[3][i]+a65*k[4][i])
	}
	s.f(t+h, m, k[5])
	for i := range y {
		st.end[i] = y[i] + h*(b1*k[0][i]+b3*k[2][i]+b4*k[3][i]+b5*k[4][i]+b6*k[5][i])
	}
	st.To = t + h
	s.f(st.To, st.end, k[6])
	return s.error(h)
}

// error is the root mean square of the components' errors, each by its own tolerance.
func (s *stepper) error(h float64) float64 {
	k, sum := &s.step.k, 0.0
	for i, end := range s.step.end {
		scale := s.tol.Absolute + s.tol.Relative*max(math.Abs(s.step.start[i]), math.Abs(end))
		e := h * (e1*k[0][i] + e3*k[2][i] + e4*k[3][i] + e5*k[4][i] + e6*k[5][i] + e7*k[6][i]) / scale
		sum += e * e
	}
	return math.Sqrt(sum / float64(len(s.step.end)))
}

// firstStep guesses a step at which a simple Euler step would be about right.
func (s *stepper) firstStep(span float64) float64 {
	var size, rate float64
	for i, y := range s.step.start {
		scale := s.tol.Absolute + s.tol.Relative*math.Abs(y)
		size += (y / scale) * (y / scale)
		rate += (s.step.k[0][i] / scale) * (s.step.k[0][i] / scale)
	}
	h := 1e-6 * span
	if size > 1e-10 && rate > 1e-10 {
		h = 0.01 * math.Sqrt(size/rate)
	}
	if math.IsNaN(h) {
		h = 1e-6 * span
	}
	return min(h, span)
}
