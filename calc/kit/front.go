package kit

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"example.com/pondwright/calc/unit"
)

// topLevel is the headroom in whole percent above which more is no better.
const topLevel = 100

// level is headroom as sets are compared by it: in whole percent, for what is known of pumps and hoses is no finer than that,
// and as much as topLevel where there is more.
func level(headroom float64) int {
	return int(math.Floor(100 * min(max(headroom, 0), topLevel/100)))
}

// A front keeps the sets that nothing beats. For each level of headroom it holds a flight of stairs: the prices, rising, at
// which a set with at least that headroom costs less to run than every cheaper one.
type front struct {
	stairs [topLevel + 1]stairs
	kept   []Candidate // and some that were beaten later
}

type stairs struct{ price, yearly []float64 }

// at is the cheapest to run of those that cost at most that price; -1 where there is none.
func (s *stairs) at(price float64) int {
	lo, hi := 0, len(s.price)
	for lo < hi {
		if mid := int(uint(lo+hi) >> 1); s.price[mid] <= price {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo - 1
}

// beats reports whether a kept set beats everything that costs at least so much to buy and to run and has at most that level
// of headroom: it is at least as good in all three and better in one.
func (f *front) beats(price, yearly float64, level int) bool {
	s := &f.stairs[level]
	i := s.at(price)
	if i < 0 || s.yearly[i] > yearly {
		return false
	}
	if s.yearly[i] < yearly || s.price[i] < price {
		return true
	}
	if level == topLevel {
		return false
	}
	above := &f.stairs[level+1] // the same to the last bit in price and yearly cost, but with more headroom
	i = above.at(price)
	return i >= 0 && above.yearly[i] <= yearly
}

// add keeps a set unless it is beaten.
func (f *front) add(c Candidate, yearly float64) {
	l, price := level(c.Headroom.Float()), c.Cost.Price
	if f.beats(price, yearly, l) {
		return
	}
	f.kept = append(f.kept, c)
	for l := l; l >= 0; l-- {
		s := &f.stairs[l]
		from := s.at(price)
		if from >= 0 && s.yearly[from] <= yearly {
			break // and so on every lower level
		}
		from = sort.SearchFloat64s(s.price, price) // what costs as much and more to run goes too
		to := from
		for to < len(s.price) && s.yearly[to] >= yearly {
			to++
		}
		s.price = slices.Replace(s.price, from, to, price)
		s.yearly = slices.Replace(s.yearly, from, to, yearly)
	}
}

// unbeaten sorts sets and thins them out to those that no other beats: none is at most as dear to buy and to run with at
// least the same whole percent of headroom, and better in one of them or before it in order.
func (f *Finder) unbeaten(sets []Candidate) []Candidate {
	slices.SortFunc(sets, f.order)
	var best []Candidate
	var seen front
	for _, c := range sets {
		yearly, l := f.yearly(c.Cost), level(c.Headroom.Float())
		s := &seen.stairs[l]
		if i := s.at(c.Cost.Price); i >= 0 && s.yearly[i] <= yearly {
			continue
		}
		seen.add(c, yearly)
		best = append(best, c)
	}
	return best
}

// order is what sets are ranked by: what they cost in all, to buy, in a year; then headroom; then their places in the range. A
// set that beats another so always stands before it.
func (f *Finder) order(a, b Candidate) int {
	return cmp.Or(
		cmp.Compare(a.Cost.Total, b.Cost.Total), cmp.Compare(a.Cost.Price, b.Cost.Price),
		cmp.Compare(f.yearly(a.Cost), f.yearly(b.Cost)), cmp.Compare(level(b.Headroom.Float()), level(a.Headroom.Float())),
		cmp.Compare(b.Headroom, a.Headroom), cmp.Compare(a.Pumps, b.Pumps), a.Set.compare(b.Set), a.fall().compare(b.fall()),
	)
}

func (c *Candidate) fall() Set {
	if c.Fall == nil {
		return Free()
	}
	return c.Fall.Set
}

// compare orders sets by their places in the range.
func (s Set) compare(o Set) int {
	return cmp.Or(cmp.Compare(s.Filter, o.Filter), cmp.Compare(s.Lamp, o.Lamp), cmp.Compare(s.Hose, o.Hose), cmp.Compare(s.Pump, o.Pump))
}

// Percent of headroom that sets are compared by.
func (c Candidate) Percent() unit.Ratio { return unit.Percent(float64(level(c.Headroom.Float()))) }
