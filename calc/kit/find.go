package kit

import (
	"errors"
	"slices"
)

// ErrStopped is what a search returns when it was told to stop.
var ErrStopped = errors.New("search stopped")

// A Result is what a search found. Sets is Working, Beaten and all of RuledOut together.
type Result struct {
	// Best holds the sets that nothing beats in price, in yearly cost and in headroom at once, in the order of what they
	// cost in all.
	Best []Candidate
	// Miss is the set that comes nearest where none works.
	Miss       *Candidate
	Sets       int64
	Working    int64         // calculated and found to keep every limit
	Beaten     int64         // proven to be beaten without being calculated
	RuledOut   [limits]int64 // by a limit a set breaks
	Calculated int64
}

// Codes gives the counts of RuledOut that are not 0, by code and in the order of the limits.
func (r *Result) Codes(yield func(code string, sets int64) bool) {
	for l, n := range r.RuledOut {
		if n > 0 && !yield(Limit(l).Code(), n) {
			return
		}
	}
}

// A pick is what a search chooses from, by places in the range; a kind that is not wanted is −1 alone.
type pick struct{ pumps, hoses, filters, lamps []int }

func (p *pick) sets() int64 {
	return int64(len(p.pumps)) * int64(len(p.hoses)) * int64(len(p.filters)) * int64(len(p.lamps))
}

// all is everything the question lets be chosen from, and of the kinds that keep names a place of, that alone.
func (f *Finder) all(keep Set) pick {
	p := pick{pumps: places(true, len(f.r.Pumps)), filters: places(f.q.Filter, len(f.r.Filters)), lamps: places(f.q.Lamp, len(f.r.Lamps))}
	for i, hose := range f.r.Hoses {
		if f.q.Wall == 0 || hose.Wall == f.q.Wall {
			p.hoses = append(p.hoses, i)
		}
	}
	for k := range Kinds {
		of := p.of(k)
		if place := keep.Of(k); place >= 0 {
			*of = []int{place}
		} else {
			*of = slices.DeleteFunc(*of, func(i int) bool { return i >= 0 && f.own(k, i) })
		}
	}
	return p
}

// of is the places of a kind.
func (p *pick) of(k Kind) *[]int { return [Kinds]*[]int{&p.pumps, &p.hoses, &p.filters, &p.lamps}[k] }

// own reports whether the owner has an item already. It is then chosen where it is kept and nowhere else.
func (f *Finder) own(k Kind, i int) bool {
	switch k {
	case PumpKind:
		return f.r.Pumps[i].Stock.Owned
	case HoseKind:
		return f.r.Hoses[i].Stock.Owned
	case FilterKind:
		return f.r.Filters[i].Stock.Owned
	default:
		return f.r.Lamps[i].Stock.Owned
	}
}

// places counts from 0 where the kind is wanted, and is −1 alone where it is not.
func places(wanted bool, n int) []int {
	if !wanted {
		return []int{-1}
	}
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}

// Find searches every set that holds what keep names, and leaves none out that could be among the best. It asks stop now and
// then, and gives up with ErrStopped when that says so; nil never does.
func (f *Finder) Find(keep Set, stop func() bool) (Result, error) {
	p := f.all(keep)
	r, err := f.search(p, stop)
	if err != nil {
		return Result{}, err
	}
	if r.Working == 0 && r.Sets > 0 {
		r.Miss, err = f.nearest(p, stop)
	}
	return r, err
}

// each goes through every set of a pick in the order of their places.
func (p *pick) each(stop func() bool, try func(Set)) error {
	for _, filter := range p.filters {
		for _, lamp := range p.lamps {
			for _, hose := range p.hoses {
				if stop != nil && stop() {
					return ErrStopped
				}
				for _, pump := range p.pumps {
					try(Set{Pump: pump, Hose: hose, Filter: filter, Lamp: lamp})
				}
			}
		}
	}
	return nil
}

// Distinct thins a result out to sets that differ in more than the hose, keeping the first of each kind, and at most that
// many.
func Distinct(best []Candidate, most int) []Candidate {
	var kept []Candidate
	for _, c := range best {
		same := func(k Candidate) bool {
			return k.Pump == c.Pump && k.Filter == c.Filter && k.Lamp == c.Lamp && k.Pumps == c.Pumps &&
				(c.Fall == nil || k.Fall.Pump == c.Fall.Pump)
		}
		if len(kept) < most && !slices.ContainsFunc(kept, same) {
			kept = append(kept, c)
		}
	}
	return kept
}
