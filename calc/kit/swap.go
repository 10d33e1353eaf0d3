package kit

import (
	"math"
	"slices"

	"example.com/pondwright/calc/unit"
)

// swaps gives every set that differs from one in an item of one kind, as far as the question lets it be chosen.
func (f *Finder) swaps(set Set, k Kind, try func(Set)) {
	p := f.all(Free())
	for _, place := range *p.of(k) {
		if place >= 0 && place != set.Of(k) {
			try(set.Put(k, place))
		}
	}
}

// A Loser is a set that falls short, one item away from another.
type Loser struct {
	Candidate
	Differs Kind
}

// Losers finds the sets one item away from a candidate that fall short, the nearest first and at most that many. It asks stop
// as Find does. Of two pumps apart it changes the side of the filter.
func (d *Desk) Losers(c Candidate, most int, stop func() bool) ([]Loser, error) {
	return d.losers(c, []Kind{PumpKind, HoseKind, FilterKind, LampKind}, most, stop)
}

// LosersOf is Losers of one kind alone.
func (d *Desk) LosersOf(c Candidate, k Kind, most int, stop func() bool) ([]Loser, error) {
	return d.losers(c, []Kind{k}, most, stop)
}

func (d *Desk) losers(c Candidate, kinds []Kind, most int, stop func() bool) ([]Loser, error) {
	f, err := d.finder(c.Pumps)
	if err != nil || most == 0 {
		return nil, err
	}
	type ranked struct {
		missed
		kind Kind
	}
	var nearest []ranked
	n, stopped := 0, false
	for _, k := range kinds {
		f.swaps(c.Set, k, func(set Set) {
			if n++; stopped || n%64 == 0 && stop != nil && stop() {
				stopped = true
				return
			}
			apart := f.apart(set)
			if len(nearest) == most && millionths(apart.short()) > nearest[most-1].short {
				return
			}
			m, short := f.fallsShort(set)
			if !short {
				return
			}
			at, _ := slices.BinarySearchFunc(nearest, m, func(a ranked, b missed) int { return a.compare(b) })
			nearest = slices.Insert(nearest, at, ranked{m, k})
			nearest = nearest[:min(len(nearest), most)]
		})
	}
	if stopped {
		return nil, ErrStopped
	}
	found := make([]Loser, len(nearest))
	for i, m := range nearest {
		lost := m.Candidate
		if c.Fall != nil {
			lost = d.pair(lost, *c.Fall)
		}
		found[i] = Loser{lost, m.kind}
	}
	return found, nil
}

// A Mend is a change after which a set works.
type Mend struct {
	Candidate
	Changed     []Kind // of the first pump's set
	ChangedFall []Kind // of the second pump's
	Price       float64
}

// Mend finds the smallest change after which a candidate works: the fewest items, and of as many those that cost the least to
// buy, and then the set that costs the least in all. Nil where no change of items does. A set keeps the number of its pumps.
func (d *Desk) Mend(c Candidate, stop func() bool) (*Mend, error) {
	f, err := d.finder(c.Pumps)
	if err != nil {
		return nil, err
	}
	first, err := f.mend(c.Set, stop)
	if err != nil || first == nil || c.Fall == nil {
		return first, err
	}
	fall, err := d.fall.mend(c.Fall.Set, stop)
	if err != nil || fall == nil {
		return nil, err
	}
	mended := &Mend{d.pair(first.Candidate, fall.Candidate), first.Changed, fall.Changed, first.Price + fall.Price}
	if budget := d.q.One.Budget; budget > 0 && mended.Cost.Price > budget {
		return nil, nil
	}
	return mended, nil
}

func (f *Finder) mend(set Set, stop func() bool) (*Mend, error) {
	if c, s := f.judge(set, true); !s.any() {
		return &Mend{Candidate: c}, nil
	}
	for size := 1; size <= int(Kinds); size++ {
		var best *Mend
		for kinds := range f.choices(size) {
			m, err := f.change(set, kinds, stop)
			if err != nil {
				return nil, err
			}
			if m != nil && (best == nil || m.Price < best.Price || m.Price == best.Price && f.order(m.Candidate, best.Candidate) < 0) {
				best = m
			}
		}
		if best != nil {
			return best, nil
		}
	}
	return nil, nil
}

// any reports whether a limit is broken.
func (s *slacks) any() bool {
	_, broken := s.broken()
	return broken
}

// choices gives every choice of so many kinds of those that a set of the question has.
func (f *Finder) choices(size int) func(func([]Kind) bool) {
	return func(yield func([]Kind) bool) {
		for mask := range 1 << Kinds {
			var kinds []Kind
			for k := range Kinds {
				if mask>>k&1 == 1 {
					kinds = append(kinds, k)
				}
			}
			if len(kinds) != size || mask>>FilterKind&1 == 1 && !f.q.Filter || mask>>LampKind&1 == 1 && !f.q.Lamp {
				continue
			}
			if !yield(kinds) {
				return
			}
		}
	}
}

// change finds the cheapest set that works with other items of those kinds, and all the others kept. The cheapest of all that
// work is always among the best of a search.
func (f *Finder) change(set Set, kinds []Kind, stop func() bool) (*Mend, error) {
	p := f.all(Free())
	for k := range Kinds {
		of := p.of(k)
		if slices.Contains(kinds, k) {
			*of = slices.DeleteFunc(*of, func(i int) bool { return i == set.Of(k) })
		} else {
			*of = []int{set.Of(k)}
		}
	}
	r, err := f.search(p, stop)
	if err != nil || len(r.Best) == 0 {
		return nil, err
	}
	best := r.Best[0]
	for _, c := range r.Best {
		if c.Cost.Price < best.Cost.Price {
			best = c
		}
	}
	m := &Mend{Candidate: best, Changed: kinds}
	for _, k := range kinds {
		m.Price += f.priceOf(best.Set, k)
	}
	return m, nil
}

// priceOf is what the item of one kind costs in a set.
func (f *Finder) priceOf(set Set, k Kind) float64 {
	switch k {
	case PumpKind:
		return float64(f.q.pumps()) * f.r.Pumps[set.Pump].Price
	case HoseKind:
		return f.r.Hoses[set.Hose].PricePerMetre * f.q.Hose.Metres()
	case FilterKind:
		return f.r.Filters[set.Filter].Price
	default:
		return f.r.Lamps[set.Lamp].Price
	}
}

// A Substitute is a set with another item of one kind that keeps every limit.
type Substitute struct {
	Candidate
	Distance float64
}

// Substitutes finds what may stand in for the item of one kind, the nearest first: by how far the flow with the filter due, the
// power and the price to buy are from those of the set, each by its own, and a tenth more where a hose or a tail of another
// bore has to be joined. These weights are an engineering choice.
func (d *Desk) Substitutes(c Candidate, k Kind, most int, stop func() bool) ([]Substitute, error) {
	f, err := d.finder(c.Pumps)
	if err != nil {
		return nil, err
	}
	var found []Substitute
	n, stopped := 0, false
	f.swaps(c.Set, k, func(set Set) {
		if n++; stopped || n%64 == 0 && stop != nil && stop() {
			stopped = true
			return
		}
		if other, s := f.judge(set, false); !s.any() {
			found = append(found, Substitute{other, f.distance(c, other)})
		}
	})
	if stopped {
		return nil, ErrStopped
	}
	slices.SortStableFunc(found, func(a, b Substitute) int {
		if a.Distance != b.Distance {
			if a.Distance < b.Distance {
				return -1
			}
			return 1
		}
		return f.order(a.Candidate, b.Candidate)
	})
	return found[:min(most, len(found))], nil
}

// distance is how far a set is from another. A set that does not run has neither flow nor power to be near to.
func (f *Finder) distance(from, to Candidate) float64 {
	far := func(a, b float64) float64 {
		if a == 0 {
			return 0
		}
		return math.Abs(b-a) / a
	}
	d := far(float64(from.Flow[Due]), float64(to.Flow[Due])) + far(float64(from.Cost.Energy), float64(to.Cost.Energy)) +
		far(f.price(from.Set), f.price(to.Set))
	if f.joint(from.Set) != f.joint(to.Set) {
		d += 0.1
	}
	return d
}

// joint is the bores that hose and pump are joined with.
func (f *Finder) joint(set Set) [3]unit.Length {
	return [3]unit.Length{f.r.Pumps[set.Pump].Outlet, f.r.Hoses[set.Hose].Bore, f.r.Hoses[set.Hose].TailBore}
}
