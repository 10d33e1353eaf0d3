package ripening

import (
	"math"

	"example.com/pondwright/calc/ode"
	"example.com/pondwright/calc/unit"
)

// watch looks on while the run goes, and remembers peaks, days and when the limits were last passed.
type watch struct {
	limits    [2]float64 // of tan and nitrite
	stop      func() bool
	peak      [2]struct{ value, at float64 } // of tan and nitrite
	lastAbove float64                        // day until which one of them was above the limit
	above     bool                           // at the end of the last step
	days      []State
	start     [components]float64
}

func newWatch(y []float64, in Input) *watch {
	w := &watch{
		limits: [2]float64{in.Limits.TAN.MilligramsPerLitre(), in.Limits.Nitrite.MilligramsPerLitre()},
		stop:   in.Stop, days: make([]State, 0, int(in.Until.Days())+1),
	}
	copy(w.start[:], y)
	w.days = append(w.days, state(func(i int) float64 { return y[i] }))
	for i := range w.peak {
		w.peak[i].value = y[i]
		w.above = w.above || y[i] > w.limits[i]
	}
	return w
}

func (w *watch) see(s *ode.Step) error {
	if w.stop != nil && w.stop() {
		return ErrStopped
	}
	for day := float64(len(w.days)); day <= s.To; day++ {
		w.days = append(w.days, state(func(i int) float64 { return s.At(day, i) }))
	}
	w.cross(s)
	for i := range w.peak {
		w.seePeak(i, s.State(i), s.To)
		if s.Crests(i) {
			value, at := highest(s, i)
			w.seePeak(i, value, at)
			if value > w.limits[i] && !w.above {
				w.lastAbove = max(w.lastAbove, w.leaves(s, at, s.To))
			}
		}
	}
	return nil
}

func (w *watch) seePeak(i int, value, at float64) {
	if value > w.peak[i].value {
		w.peak[i].value, w.peak[i].at = value, at
	}
}

// cross keeps lastAbove up to date from one end of a step to the other.
func (w *watch) cross(s *ode.Step) {
	was := w.above
	w.above = w.exceeds(s, s.To)
	switch {
	case w.above:
		w.lastAbove = s.To
	case was:
		w.lastAbove = max(w.lastAbove, w.leaves(s, s.From, s.To))
	}
}

func (w *watch) exceeds(s *ode.Step, t float64) bool {
	return s.At(t, tan) > w.limits[tan] || s.At(t, nitrite) > w.limits[nitrite]
}

// leaves finds when the last of both comes down through its limit, which one of them is above at one time and neither at
// the other.
func (w *watch) leaves(s *ode.Step, above, below float64) float64 {
	for range 40 {
		if mid := (above + below) / 2; w.exceeds(s, mid) {
			above = mid
		} else {
			below = mid
		}
	}
	return below
}

// highest finds the top of component i within a step, by golden section.
func highest(s *ode.Step, i int) (value, at float64) {
	golden, from, to := (math.Sqrt(5)-1)/2, s.From, s.To
	for range 40 {
		a, b := to-golden*(to-from), from+golden*(to-from)
		if s.At(a, i) > s.At(b, i) {
			to = b
		} else {
			from = a
		}
	}
	at = (from + to) / 2
	return s.At(at, i), at
}

func (w *watch) result(y []float64, in Input, brought float64) Result {
	peak := func(i int) Peak {
		return Peak{Value: unit.MilligramsPerLitre(w.peak[i].value), At: unit.Days(w.peak[i].at)}
	}
	r := Result{
		TAN: peak(tan), Nitrite: peak(nitrite),
		Days: w.days, End: state(func(i int) float64 { return y[i] }),
	}
	had := w.start[tan] + w.start[nitrite] + w.start[nitrate]
	r.Fed = w.start[tan] > 0 || w.peak[tan].value > 0
	r.Ripe = r.Fed && !w.above
	if r.Ripe {
		r.RipeAt = unit.Days(w.lastAbove)
	}
	stored := y[tan] + y[nitrite] + y[nitrate]
	if in := had + brought; in > 0 {
		r.Balance = unit.Ratio((in - y[left] - stored) / in)
	}
	return r
}
