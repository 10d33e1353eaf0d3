package kit

import (
	"math"

	"example.com/pondwright/calc/unit"
)

// tryPair goes through the filters of a pair.
func (s *search) tryPair(p *pair) {
	filters, lamps := s.filters.parts, s.lamps.parts
	if s.pairBeaten(p) {
		s.Beaten += int64(len(filters)) * int64(len(lamps))
		return
	}
	cheapest := s.lamps.from[0]
	yearly := s.yearlyOf(p.summer, p.winter, cheapest.power, cheapest.lamps)
	for i := range filters {
		f := &filters[i]
		price := p.price + f.price
		if s.dear(price + cheapest.price) { // and so is every filter after it
			s.RuledOut[OverBudget] += int64(len(filters)-i) * int64(len(lamps))
			return
		}
		spare := min(p.spare, f.slack, 1-s.above(p.clean)/f.most)
		if s.beaten(price+cheapest.price, yearly, spare) {
			s.Beaten += int64(len(lamps))
			continue
		}
		s.tryFilter(p, f, spare)
	}
}

// pairBeaten asks, for each headroom that the sets of a pair can have, whether a kept set beats the cheapest there can be.
func (s *search) pairBeaten(p *pair) bool {
	most := level(p.spare + hair)
	at := func(l int) bool {
		f, lamp := s.filters.from[l], s.lamps.from[l]
		price := p.price + f.price + lamp.price
		return math.IsInf(price, 1) || s.beats(price, s.yearlyOf(p.summer, p.winter, lamp.power, lamp.lamps), l)
	}
	for _, l := range s.levels {
		if l >= most {
			break
		}
		if !at(l) {
			return false
		}
	}
	return at(most)
}

// dear reports whether a price is beyond the budget beyond doubt.
func (s *search) dear(price float64) bool { return s.q.Budget > 0 && price > s.q.Budget*(1+hair) }

// tryFilter goes through the groups of lamp units of a pair and a filter.
func (s *search) tryFilter(p *pair, f *part, spare float64) {
	at := stack{price: p.price + f.price, spare: spare, clean: p.clean, weak: p.weak}
	if l, broken := s.narrow(&at, p, f, &s.lamps); broken {
		s.RuledOut[l] += int64(len(s.lamps.parts))
		return
	}
	if s.stackBeaten(p, &at, &s.lamps) {
		s.Beaten += int64(len(s.lamps.parts))
		return
	}
	for i := range s.groups {
		s.tryGroup(p, f, &s.groups[i], at)
	}
}

// tryGroup goes through a group of lamp units.
func (s *search) tryGroup(p *pair, f *part, group *shelf, at stack) {
	lamps := group.parts
	if l, broken := s.narrow(&at, p, f, group); broken {
		s.RuledOut[l] += int64(len(lamps))
		return
	}
	if s.stackBeaten(p, &at, group) {
		s.Beaten += int64(len(lamps))
		return
	}
	clean := s.above(at.clean)
	for i := range lamps {
		lamp := &lamps[i]
		price := at.price + lamp.price
		if s.dear(price) {
			s.RuledOut[OverBudget] += int64(len(lamps) - i)
			return
		}
		if s.beaten(price, s.yearlyOf(at.power, p.winter, lamp.power, lamp.lamps), min(at.spare, lamp.slack, 1-clean/lamp.most)) {
			s.Beaten++
			continue
		}
		s.trySet(p, f, lamp, at)
	}
}

// A stack is a pump, a hose and a filter, with what holds for all lamp units looked at beside them.
type stack struct {
	price       float64
	spare       float64 // the most headroom there may be
	clean, weak bracket
	power       unit.Power // the least that may be taken
}

// narrow bounds a stack for the lamp units of a shelf, and says which limit every one of them breaks.
func (s *search) narrow(at *stack, p *pair, f *part, lamps *shelf) (Limit, bool) {
	k, d := s.spins[p.spin], &s.ducts[p.duct]
	least := s.meet(&k.strong, &d.runs, f.clean.plus(lamps.clean.most), k.sound, at.clean)
	most := s.meet(&k.strong, &d.runs, f.clean.plus(lamps.clean.least), k.sound, at.clean)
	weakLeast := s.meet(&k.weak, &d.rough, f.due.plus(lamps.due.most), k.weakSound, at.weak)
	weakMost := s.meet(&k.weak, &d.rough, f.due.plus(lamps.due.least), k.weakSound, at.weak)
	at.clean, at.weak = bracket{least.lo, most.hi}, bracket{weakLeast.lo, weakMost.hi}
	clean := s.above(at.clean)
	at.spare = min(at.spare, s.spare(d, clean, s.below(at.weak)), 1-clean/f.most)
	at.power = k.least(at.clean)
	return s.breaks(d, f, lamps.most, clean, at.weak)
}

// stackBeaten is pairBeaten for the lamp units of a shelf beside a stack.
func (s *search) stackBeaten(p *pair, at *stack, lamps *shelf) bool {
	most := level(at.spare + hair)
	beaten := func(l int) bool {
		lamp := &lamps.from[l]
		return math.IsInf(lamp.price, 1) || s.beats(at.price+lamp.price, s.yearlyOf(at.power, p.winter, lamp.power, lamp.lamps), l)
	}
	for _, l := range lamps.levels {
		if l >= most {
			break
		}
		if !beaten(l) {
			return false
		}
	}
	return beaten(most)
}

// trySet bounds one set by itself, and calculates it where that does not settle it.
func (s *search) trySet(p *pair, f, lamp *part, at stack) {
	k, d := s.spins[p.spin], &s.ducts[p.duct]
	at.clean = s.meet(&k.strong, &d.runs, f.clean.plus(lamp.clean), k.sound, at.clean)
	at.weak = s.meet(&k.weak, &d.rough, f.due.plus(lamp.due), k.weakSound, at.weak)
	clean := s.above(at.clean)
	if l, broken := s.breaks(d, f, lamp.most, clean, at.weak); broken {
		s.RuledOut[l]++
		return
	}
	spare := min(at.spare, lamp.slack, s.spare(d, clean, s.below(at.weak)), 1-clean/f.most, 1-clean/lamp.most)
	if s.beaten(at.price+lamp.price, s.yearlyOf(k.least(at.clean), p.winter, lamp.power, lamp.lamps), spare) {
		s.Beaten++
		return
	}
	s.Calculated++
	c, slack := s.judge(Set{Pump: k.place, Hose: d.place, Filter: f.place, Lamp: lamp.place}, false)
	if l, broken := slack.broken(); broken {
		s.RuledOut[l]++
		return
	}
	s.Working++
	s.add(c, s.Finder.yearly(c.Cost))
}

// breaks says which limit of flow every set breaks that gives more than clean with a clean filter, and of which a weak pump gives
// less than the bracket weak.
func (s *search) breaks(d *duct, f *part, lamp, clean float64, weak bracket) (Limit, bool) {
	const surely = 1 + hair
	switch {
	case s.q.Wanted.Least > 0 && weak.hi == 0:
		return FlowBelowWanted, true
	case s.q.Wanted.Most > 0 && clean > float64(s.q.Wanted.Most)*surely:
		return FlowAboveWanted, true
	case clean > f.most*surely:
		return FlowAboveFilter, true
	case clean > lamp*surely:
		return FlowAboveLampUnit, true
	case clean > d.top*surely && d.over == FastInHose:
		return FastInHose, true
	}
	return 0, false
}
