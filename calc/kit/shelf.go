package kit

import (
	"cmp"
	"math"
	"slices"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/unit"
)

// A law is the head that whatever is built in takes: a lift, and a share that goes with the square of flow.
type law struct{ lift, square float64 }

func lawOf(d circuit.Device) law {
	at := float64(d.At)
	return law{square: float64(d.Loss) / (at * at)}
}

func (l law) plus(m law) law { return law{l.lift + m.lift, l.square + m.square} }

func (l law) at(square float64) float64 { return l.lift + l.square*square }

// A part is a filter or a lamp unit as the search sees it.
type part struct {
	place      int
	price      float64
	slack      float64 // of the limit that does not depend on flow: capacity of a filter, dose of a lamp unit
	most       float64 // greatest flow
	clean, due law
	power      unit.Power // of a lamp unit
	lamps      float64    // what its lamps cost a year
}

// level is the most headroom that a set with the part can have.
func (p *part) level() int { return level(p.slack + hair) }

func (f *Finder) filterPart(i int) part {
	p := part{place: i, slack: math.Inf(1), most: math.Inf(1)}
	if i < 0 {
		return p
	}
	item := &f.r.Filters[i]
	p.price = item.Price
	if item.MaxFlow > 0 {
		p.most = float64(item.MaxFlow)
	}
	if f.q.Load.TAN > 0 {
		p.slack = f.assessed[i].Headroom.Float()
	}
	if item.Open {
		p.clean = law{lift: float64(item.InletAboveOutlet)}
		p.due = p.clean
	} else {
		p.clean, p.due = lawOf(item.Clean), lawOf(item.Due)
	}
	return p
}

// anyFlow is a flow to work out the dose of a day at. The dose of a day is the same at every flow but for rounding: what passes
// half as fast passes half as often.
const anyFlow = unit.Flow(1e-3)

func (f *Finder) lampPart(i int) part {
	p := part{place: i, slack: math.Inf(1), most: math.Inf(1)}
	if i < 0 {
		return p
	}
	item := &f.r.Lamps[i]
	p.price, p.power, p.lamps = item.Price, item.WallPower, f.lamps(nil, i)
	p.slack = f.dose(i, anyFlow)
	if item.MaxFlow > 0 {
		p.most = float64(item.MaxFlow)
	}
	p.clean = lawOf(item.Loss)
	p.due = p.clean
	return p
}

// A shelf is the filters or the lamp units of a search, cheapest first, with what is least and most among them.
type shelf struct {
	parts      []part
	most       float64 // greatest flow of any
	clean, due struct{ least, most law }
	from       [topLevel + 1]tier // of those that leave that much headroom
	levels     []int              // where the next tier is another
}

// A tier is what is least among the parts of a shelf that leave some headroom; price is +∞ where there is none.
type tier struct {
	price float64
	power unit.Power
	lamps float64
}

func (t tier) and(p *part) tier {
	return tier{min(t.price, p.price), min(t.power, p.power), min(t.lamps, p.lamps)}
}

// order sorts the shelf and looks it through.
func (s *shelf) order() {
	slices.SortStableFunc(s.parts, func(a, b part) int { return cmp.Compare(a.price, b.price) })
	for i := range s.from {
		s.from[i] = tier{math.Inf(1), unit.Power(math.Inf(1)), math.Inf(1)}
	}
	inf := law{math.Inf(1), math.Inf(1)}
	s.clean.least, s.due.least = inf, inf
	for i := range s.parts {
		p := &s.parts[i]
		s.most = max(s.most, p.most)
		s.clean.least, s.due.least = s.clean.least.less(p.clean), s.due.least.less(p.due)
		s.clean.most, s.due.most = s.clean.most.more(p.clean), s.due.most.more(p.due)
		l := p.level()
		s.from[l] = s.from[l].and(p)
	}
	for l := topLevel - 1; l >= 0; l-- {
		a, b := s.from[l], s.from[l+1]
		s.from[l] = tier{min(a.price, b.price), min(a.power, b.power), min(a.lamps, b.lamps)}
	}
	for l := range topLevel {
		if s.from[l] != s.from[l+1] {
			s.levels = append(s.levels, l)
		}
	}
}

// groups divides a shelf into some whose parts take much the same head.
func (s *shelf) groups(size int) []shelf {
	parts := slices.Clone(s.parts)
	slices.SortStableFunc(parts, func(a, b part) int { return cmp.Compare(a.due.square, b.due.square) })
	var groups []shelf
	for chunk := range slices.Chunk(parts, size) {
		g := shelf{parts: chunk}
		g.order()
		groups = append(groups, g)
	}
	return groups
}

func (l law) less(m law) law { return law{min(l.lift, m.lift), min(l.square, m.square)} }

func (l law) more(m law) law { return law{max(l.lift, m.lift), max(l.square, m.square)} }
