package kit

import (
	"math"
	"slices"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/unit"
)

// A search finds the best sets of a pick without calculating each. It goes from pairs of pump and hose, those first that can
// cost least in all, to their filters and from there to their lamp units, and at each step asks two questions of all the sets
// that lie below: is there a limit that every one of them breaks, and is there a set among those found that beats every one?
//
// A pump on a hose brackets its flow between two steps of a grid, for the least and for the most head that filter and lamp unit
// may take: more head never lets more flow. From the bracket follow the least yearly cost and the most headroom that any set
// below can have; least prices are sums of least prices. A set is calculated only where neither question is answered with yes.
type search struct {
	*Finder
	pick
	front
	Result
	grid
	stop           func() bool
	filters, lamps shelf
	groups         []shelf // of the lamp units
	levels         []int   // of headroom, rising, at which filters or lamp units change
	ducts          []duct
	spins          []*spin
	pairs          []pair
}

// hair is what bounds are widened by, so that rounding cannot turn one against a set that keeps it.
const hair = 1e-9

// groupSize is how many lamp units are looked at together: enough to pass over many at once, few enough to be alike.
const groupSize = 12

// search finds the best sets of a pick.
func (f *Finder) search(p pick, stop func() bool) (Result, error) {
	s := &search{Finder: f, pick: p, stop: stop}
	s.Sets = p.sets()
	s.shelve()
	if s.sets() > 0 {
		s.lay()
		if err := s.pair(); err != nil {
			return Result{}, err
		}
		for i := range s.pairs {
			if stop != nil && stop() {
				return Result{}, ErrStopped
			}
			s.tryPair(&s.pairs[i])
		}
	}
	s.Best = f.unbeaten(s.kept)
	return s.Result, nil
}

// shelve leaves out items that no set works with, and orders the others.
func (s *search) shelve() {
	s.only(OutOfStock, &s.pick.pumps, func(i int) bool { return s.q.Stock.allows(s.r.Pumps[i].Stock, s.q.pumps()) })
	s.only(OutOfStock, &s.pick.hoses, func(i int) bool { return s.q.Stock.allows(s.r.Hoses[i].Stock, s.metres()) })
	s.only(OutOfStock, &s.pick.filters, func(i int) bool { return i < 0 || s.q.Stock.allows(s.r.Filters[i].Stock, 1) })
	s.only(OutOfStock, &s.pick.lamps, func(i int) bool { return i < 0 || s.q.Stock.allows(s.r.Lamps[i].Stock, 1) })
	s.only(FilterMissing, &s.pick.filters, func(i int) bool { return i >= 0 || !s.q.Filter })
	s.only(LampMissing, &s.pick.lamps, func(i int) bool { return i >= 0 || !s.q.Lamp })
	s.only(FilterTooSmall, &s.pick.filters, func(i int) bool { return s.filterPart(i).slack >= 0 })
	s.only(DoseTooLow, &s.pick.lamps, func(i int) bool { return s.lampPart(i).slack >= -hair })
	for _, i := range s.pick.filters {
		s.filters.parts = append(s.filters.parts, s.filterPart(i))
	}
	for _, i := range s.pick.lamps {
		s.lamps.parts = append(s.lamps.parts, s.lampPart(i))
	}
	s.filters.order()
	s.lamps.order()
	s.groups = s.lamps.groups(groupSize)
	s.levels = slices.Compact(slices.Sorted(slices.Values(slices.Concat(s.filters.levels, s.lamps.levels))))
}

// only keeps the places of a kind that are good, and counts the sets that go with the others.
func (s *search) only(l Limit, places *[]int, good func(int) bool) {
	before := s.sets()
	*places = slices.DeleteFunc(slices.Clone(*places), func(i int) bool { return !good(i) })
	s.RuledOut[l] += before - s.sets()
}

// A duct is a hose as the search sees it.
type duct struct {
	place       int
	area        float64
	runs, rough heads   // lift included
	top         float64 // greatest flow that any set with it may have
	over        Limit   // which limit that is
	atTop       float64 // what lift and hose take there
}

// lay spreads the grid over the flows that sets may have, and lays the hoses out over it.
func (s *search) lay() {
	widest, last := 0.0, 0.0
	for _, h := range s.pick.hoses {
		d := duct{place: h, area: 1 / float64(s.runs[h].Velocity(1)), top: math.Inf(1)}
		limit := func(l Limit, q float64) {
			if q < d.top {
				d.top, d.over = q, l
			}
		}
		if s.q.Wanted.Most > 0 {
			limit(FlowAboveWanted, float64(s.q.Wanted.Most))
		}
		limit(FlowAboveFilter, s.filters.most)
		limit(FlowAboveLampUnit, s.lamps.most)
		limit(FastInHose, float64(circuit.VelocityLimit)*d.area)
		widest = max(widest, d.top)
		s.ducts = append(s.ducts, d)
	}
	for _, p := range s.pick.pumps {
		_, q := s.Finder.pumps[p].Range()
		last = max(last, float64(q))
	}
	top := min(widest, last)
	from := float64(s.q.Wanted.Least)
	if from <= 0 {
		from = top / 1000
	}
	s.grid.lay(from, max(top, 1.01*from))
	for i := range s.ducts {
		d := &s.ducts[i]
		s.stretch(d)
		d.atTop = float64(s.q.Lift + s.Finder.runs[d.place].Loss(unit.Flow(d.top), s.q.Water))
	}
}

// stretch lays a hose out over the grid.
func (s *search) stretch(d *duct) {
	run, rough := s.Finder.runs[d.place], s.Finder.rough[d.place]
	for j, q := range s.flow {
		d.runs[j] = float64(s.q.Lift + run.Loss(unit.Flow(q), s.q.Water))
		d.rough[j] = float64(s.q.Lift + rough.Loss(unit.Flow(q), s.q.Water))
	}
}

// beaten reports whether the front beats all sets that cost at least so much and have at most that headroom.
func (s *search) beaten(price, yearly, headroom float64) bool {
	return s.beats(price, yearly, level(headroom+hair))
}
