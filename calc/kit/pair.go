package kit

import (
	"cmp"
	"math"
	"slices"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
)

// A spin is a pump as the search sees it, as its curve says and at the weak end of its tolerance.
type spin struct {
	place            int
	strong, weak     heads
	sound, weakSound int
	constant         bool       // it takes the same power at every flow
	power            unit.Power // the least it ever takes
	powers           heads      // the least it takes between a flow of the grid and the next, in W
}

// A pair is a pump on a hose, with the bounds of all sets that hold it.
type pair struct {
	spin, duct int // places in the search
	price      float64
	summer     unit.Power // the least it may take, and so is winter
	winter     unit.Power
	clean      bracket // of the flow with a clean filter, and so is weak, of a weak pump with one that is due
	weak       bracket
	spare      float64 // the most headroom there may be
	total      float64 // the least cost in all
}

// headAt is as pumpHeads, at one flow.
func headAt(p pump.Pump, q float64) float64 {
	switch h, ok := p.Head(unit.Flow(q)); {
	case q < float64(p.Crest()):
		return math.Inf(1)
	case ok:
		return float64(h)
	default:
		return math.Inf(-1)
	}
}

// pair finds the pairs that may work, and bounds them.
func (s *search) pair() error {
	stacks := int64(len(s.filters.parts)) * int64(len(s.lamps.parts))
	hard, easyDue := s.filters.clean.most.plus(s.lamps.clean.most), s.filters.due.least.plus(s.lamps.due.least)
	for _, p := range s.pick.pumps {
		if s.stop != nil && s.stop() {
			return ErrStopped
		}
		weakest := headAt(s.Finder.weak[p], s.flow[0])
		known := -1
		for i := range s.ducts {
			d := &s.ducts[i]
			if s.q.Wanted.Least > 0 && weakest-d.rough[0]-easyDue.at(s.square[0]) < -float64(doubt) {
				s.RuledOut[FlowBelowWanted] += stacks
				continue
			}
			if h := headAt(s.Finder.pumps[p], d.top); !math.IsInf(h, 1) && h-d.atTop-hard.at(d.top*d.top) > float64(doubt) {
				s.RuledOut[d.over] += stacks
				continue
			}
			if known < 0 {
				known = len(s.spins)
				s.spins = append(s.spins, s.spin(p))
			}
			if q := s.bound(known, i); s.coldWorks(&q, stacks) {
				s.pairs = append(s.pairs, q)
			}
		}
	}
	slices.SortFunc(s.pairs, func(a, b pair) int {
		return cmp.Or(cmp.Compare(a.total, b.total), cmp.Compare(a.duct, b.duct), cmp.Compare(a.spin, b.spin))
	})
	return nil
}

func (s *search) spin(p int) *spin {
	k := &spin{place: p}
	k.sound = s.pumpHeads(s.Finder.pumps[p], &k.strong)
	k.weakSound = s.pumpHeads(s.Finder.weak[p], &k.weak)
	first, last := s.Finder.pumps[p].Range()
	if k.power, k.constant = s.Finder.pumps[p].LeastPower(first, last); !k.constant {
		k.power *= 1 - hair
		k.sample(&s.grid, s.Finder.pumps[p])
	}
	return k
}

// bound works out what all sets of a pump on a hose have in common.
func (s *search) bound(k, i int) pair {
	pump, d := s.spins[k], &s.ducts[i]
	p := pair{spin: k, duct: i, price: s.pairPrice(pump.place, d.place), winter: pump.power}
	filters, lamps := &s.filters, &s.lamps
	least := s.meet(&pump.strong, &d.runs, filters.clean.most.plus(lamps.clean.most), pump.sound, anywhere)
	most := s.meet(&pump.strong, &d.runs, filters.clean.least.plus(lamps.clean.least), pump.sound, anywhere)
	p.clean = bracket{least.lo, most.hi}
	least = s.meet(&pump.weak, &d.rough, filters.due.most.plus(lamps.due.most), pump.weakSound, anywhere)
	most = s.meet(&pump.weak, &d.rough, filters.due.least.plus(lamps.due.least), pump.weakSound, anywhere)
	p.weak = bracket{least.lo, most.hi}
	p.summer = pump.least(p.clean)
	p.spare = s.spare(d, s.above(p.clean), s.below(p.weak))
	return p
}

// least is the least power a pump may take in a bracket.
func (k *spin) least(b bracket) unit.Power {
	if k.constant || b.lo < 0 || b.hi >= steps {
		return k.power
	}
	least := k.powers[b.lo]
	for i := b.lo + 1; i < b.hi; i++ {
		least = min(least, k.powers[i])
	}
	return unit.Power(least)
}

// sample fills in the least power between the flows of a grid: that at either end, or at a measured point between them, for a
// curve never leaves the range of the points it is drawn through.
func (k *spin) sample(g *grid, p pump.Pump) {
	for i, q := range g.flow {
		power, _ := p.Power(unit.Flow(q)) // beyond the curve, where no set works, it is 0
		k.powers[i] = float64(power)
	}
	for i := range steps - 1 {
		k.powers[i] = min(k.powers[i], k.powers[i+1])
	}
	i := 0
	for point := range p.Measured {
		for i < steps-1 && g.flow[i+1] < float64(point.Flow) {
			i++
		}
		k.powers[i] = min(k.powers[i], float64(point.Power))
	}
	for i := range k.powers {
		k.powers[i] *= 1 - hair
	}
}

// spare is the most headroom that flow leaves, with the least flow from a clean filter and the most from a weak pump.
func (s *search) spare(d *duct, clean, weak float64) float64 {
	spare := 1 - clean/d.area/float64(circuit.VelocityLimit)
	if s.q.Wanted.Most > 0 {
		spare = min(spare, 1-clean/float64(s.q.Wanted.Most))
	}
	if s.q.Wanted.Least > 0 {
		spare = min(spare, weak/float64(s.q.Wanted.Least)-1)
	}
	return spare
}

// coldWorks solves the winter of a pair that has a way of its own then, past filter and lamp unit, and is the same for all sets
// of the pair. It counts and refuses a pair that breaks a limit there.
func (s *search) coldWorks(p *pair, stacks int64) bool {
	w := s.q.Winter
	if w.moved() && !w.Filter && !w.Lamp {
		c := Candidate{Set: Set{Pump: s.spins[p.spin].place, Hose: s.ducts[p.duct].place, Filter: -1, Lamp: -1}}
		slack := free()
		s.holdCold(&c, &slack)
		if l, broken := slack.broken(); broken {
			s.RuledOut[l] += stacks
			return false
		}
		_, spare := slack.tightest()
		p.spare = min(p.spare, spare)
		p.winter, _ = s.Finder.pumps[c.Pump].Power(c.Flow[Cold])
	}
	f, l := s.filters.from[0], s.lamps.from[0]
	p.total = p.price + f.price + l.price
	if s.q.Tariff > 0 {
		p.total += s.q.Years * s.yearlyOf(p.summer, p.winter, l.power, l.lamps)
	}
	return true
}
