package kit

import (
	"cmp"
	"errors"
	"slices"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
)

// ErrStopped is what Find returns when it was told to stop.
var ErrStopped = errors.New("search stopped")

// A Result is what a search found.
type Result struct {
	// Best holds the sets that nothing beats in price, in yearly cost and in headroom at once, in the order of what they
	// cost in all.
	Best []Candidate
	// Miss is the set that comes nearest where none works.
	Miss     *Candidate
	Sets     int64
	Working  int64
	RuledOut [limits]int64 // by the first limit a set broke
}

// Codes gives the counts of RuledOut that are not 0, by code and in the order of the limits.
func (r *Result) Codes(yield func(code string, sets int64) bool) {
	for l, n := range r.RuledOut {
		if n > 0 && !yield(Limit(l).Code(), n) {
			return
		}
	}
}

// Find tries every set. It asks stop now and then, and gives up with ErrStopped when that says so; nil never does.
func (f *Finder) Find(stop func() bool) (Result, error) {
	var r Result
	var working []Candidate
	bare := f.bare()
	err := f.each(stop, func(set Set) {
		r.Sets++
		if l := bare[set.Hose][set.Pump]; l >= 0 {
			r.RuledOut[l]++
			return
		}
		c, s := f.judge(set, false)
		if l, broken := s.broken(); broken {
			r.RuledOut[l]++
			return
		}
		working = append(working, c)
	})
	if err != nil {
		return Result{}, err
	}
	r.Working = int64(len(working))
	r.Best = f.pareto(working)
	if len(working) == 0 && r.Sets > 0 {
		r.Miss, err = f.nearest(stop)
	}
	return r, err
}

// each goes through every set in a fixed order.
func (f *Finder) each(stop func() bool, try func(Set)) error {
	for filter := range places(f.q.Filter, len(f.r.Filters)) {
		for lamp := range places(f.q.Lamp, len(f.r.Lamps)) {
			for hose := range f.r.Hoses {
				if f.q.Wall != 0 && f.r.Hoses[hose].Wall != f.q.Wall {
					continue
				}
				if stop != nil && stop() {
					return ErrStopped
				}
				for pump := range f.r.Pumps {
					try(Set{Pump: pump, Hose: hose, Filter: filter, Lamp: lamp})
				}
			}
		}
	}
	return nil
}

// places counts from 0 where the kind is wanted, and is -1 once where it is not.
func places(wanted bool, n int) func(func(int) bool) {
	return func(yield func(int) bool) {
		if !wanted {
			yield(-1)
			return
		}
		for i := range n {
			if !yield(i) {
				return
			}
		}
	}
}

// Distinct thins a result out to sets that differ in more than the hose, keeping the first of each kind, and at most that
// many.
func Distinct(best []Candidate, most int) []Candidate {
	var kept []Candidate
	for _, c := range best {
		same := func(k Candidate) bool { return k.Pump == c.Pump && k.Filter == c.Filter && k.Lamp == c.Lamp }
		if len(kept) < most && !slices.ContainsFunc(kept, same) {
			kept = append(kept, c)
		}
	}
	return kept
}

// bare finds the pumps that fall short in a hose even with nothing built in, by hose and pump: the limit they break, or -1.
// Whatever is built in only takes flow away, so every set with such a pair breaks the same limit.
func (f *Finder) bare() [][]Limit {
	table := make([][]Limit, len(f.r.Hoses))
	for hose := range f.r.Hoses {
		table[hose] = make([]Limit, len(f.r.Pumps))
		loop := &circuit.Loop{Lift: f.q.Lift, Runs: []*pipe.Run{f.runs[hose]}}
		for i, p := range f.r.Pumps {
			q, _, outcome := circuit.Solve(pump.AsMeasured(p.Curve), loop, f.q.Water)
			switch {
			case outcome == circuit.CannotLift:
				table[hose][i] = NoDuty
			case outcome == circuit.Meets && q < f.q.Wanted.Least:
				table[hose][i] = FlowBelowWanted
			default:
				table[hose][i] = -1
			}
		}
	}
	return table
}

// pareto keeps the sets that no other set beats: none is at most as dear to buy and to run with at least the headroom, and
// better in one of them.
func (f *Finder) pareto(working []Candidate) []Candidate {
	slices.SortStableFunc(working, func(a, b Candidate) int {
		return cmp.Or(
			cmp.Compare(a.Cost.Total, b.Cost.Total), cmp.Compare(a.Cost.Price, b.Cost.Price),
			cmp.Compare(a.Cost.Energy, b.Cost.Energy), cmp.Compare(b.Headroom, a.Headroom),
		)
	})
	var best []Candidate
	for _, c := range working {
		if !slices.ContainsFunc(best, func(b Candidate) bool { return f.covers(b, c) }) {
			best = append(best, c)
		}
	}
	return best
}

// covers reports whether b is as good as c in everything. In the order of total cost a set can only be covered by one
// before it, for what is at most as dear to buy and to run is at most as dear in all.
func (f *Finder) covers(b, c Candidate) bool {
	running := func(c Candidate) float64 {
		if f.q.Tariff > 0 {
			return c.Cost.PerYear()
		}
		return c.Cost.Energy.KilowattHours()
	}
	return b.Cost.Price <= c.Cost.Price && running(b) <= running(c) && b.Headroom >= c.Headroom
}

// nearest finds the set that breaks its limits by least, all of them added up.
func (f *Finder) nearest(stop func() bool) (*Candidate, error) {
	var best *Candidate
	var least float64
	err := f.each(stop, func(set Set) {
		c, s := f.judge(set, true)
		if short := s.short(); best == nil || short < least {
			tightest, slack := s.tightest()
			c.Tightest, c.Headroom = tightest, unit.Ratio(slack)
			best, least = &c, short
		}
	})
	return best, err
}
