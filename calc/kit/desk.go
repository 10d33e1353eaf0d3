package kit

import (
	"math/bits"

	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Questions are the forms one question takes for one pump and for two.
type Questions struct {
	One   Question
	Apart *Ways // nil where one pump cannot be split in two: without a fall, or without anything else to feed
	Pumps PumpRule
	Keep  Set // what every set holds, by place in the range; see Range.With
}

// Ways are the questions of two pumps apart: of the one that feeds filter and lamp unit, and of the one that feeds the fall.
type Ways struct{ Filter, Fall Question }

// A PumpRule says whether sets of two pumps are searched.
type PumpRule int

// The rules.
const (
	TwoIfNeeded PumpRule = iota // where no set of one pump works
	NeverTwo
	AlwaysTwo
)

// A Desk answers one brief from one range. It is not safe for concurrent use.
type Desk struct {
	q            Questions
	r            Range
	one, beside  *Finder
	filter, fall *Finder
}

// NewDesk prepares a brief. Errors are those of NewFinder.
func NewDesk(q Questions, r Range) (*Desk, error) {
	one, err := NewFinder(q.One, r)
	return &Desk{q: q, r: r, one: one}, err
}

// finder is what calculates the first pump of an arrangement.
func (d *Desk) finder(a Arrangement) (*Finder, error) {
	if a == OnePump {
		return d.one, nil
	}
	if a == SideBySide {
		q := d.q.One
		q.Beside = true
		return prepared(&d.beside, q, d.r)
	}
	if _, err := prepared(&d.fall, d.q.Apart.Fall, d.r); err != nil {
		return nil, err
	}
	return prepared(&d.filter, d.q.Apart.Filter, d.r)
}

func prepared(f **Finder, q Question, r Range) (*Finder, error) {
	var err error
	if *f == nil {
		*f, err = NewFinder(q, r)
	}
	return *f, err
}

// Suggest searches the sets of one pump, and those of two where the rule asks for them.
func (d *Desk) Suggest(stop func() bool) (Result, error) {
	var r Result
	var err error
	if d.q.Pumps != AlwaysTwo {
		r, err = d.one.Find(d.q.Keep, stop)
		if err != nil || r.Working > 0 || d.q.Pumps == NeverTwo {
			return r, err
		}
	}
	var sets []Candidate
	if d.q.Keep.Pump < 0 { // nobody has said that there are two of what is owned
		two, err := d.besides(stop)
		if err != nil {
			return Result{}, err
		}
		r.count(two)
		if r.Miss == nil {
			r.Miss = two.Miss
		}
		sets = append(sets, two.Best...)
	}
	if d.q.Apart != nil {
		two, err := d.aparts(stop)
		if err != nil {
			return Result{}, err
		}
		r.count(two)
		sets = append(sets, two.Best...)
	}
	if r.Best = d.one.unbeaten(sets); len(r.Best) > 0 {
		r.Miss = nil
	}
	return r, nil
}

func (r *Result) count(o Result) {
	r.Sets += o.Sets
	r.Working += o.Working
	r.Beaten += o.Beaten
	r.Calculated += o.Calculated
	for l := range r.RuledOut {
		r.RuledOut[l] += o.RuledOut[l]
	}
}

// besides searches sets of two pumps side by side.
func (d *Desk) besides(stop func() bool) (Result, error) {
	f, err := d.finder(SideBySide)
	if err != nil {
		return Result{}, err
	}
	if d.q.Pumps == AlwaysTwo {
		return f.Find(d.q.Keep, stop)
	}
	return f.search(f.all(d.q.Keep), stop)
}

// aparts searches sets of two pumps apart. A pump or a hose that is owned is tried on either side.
func (d *Desk) aparts(stop func() bool) (Result, error) {
	if _, err := d.finder(Apart); err != nil {
		return Result{}, err
	}
	built, moved := Free(), Free()
	built.Filter, built.Lamp = d.q.Keep.Filter, d.q.Keep.Lamp
	moved.Pump, moved.Hose = d.q.Keep.Pump, d.q.Keep.Hose
	r, err := d.pairUp(d.q.Keep, Free(), stop)
	if err == nil && moved != Free() {
		var other Result
		other, err = d.pairUp(built, moved, stop)
		r.count(other)
		r.Best = append(r.Best, other.Best...)
	}
	return r, err
}

// pairUp puts the best sets for the filter and the best for the fall together. What beats a set on one side beats it in every
// pair, for price and yearly cost add up and the lesser headroom counts: the best pairs are pairs of the best.
func (d *Desk) pairUp(keep, keepFall Set, stop func() bool) (Result, error) {
	a, err := d.filter.search(d.filter.all(keep), stop)
	if err != nil {
		return Result{}, err
	}
	b, err := d.fall.search(d.fall.all(keepFall), stop)
	if err != nil {
		return Result{}, err
	}
	r := both(a, b)
	var found front
	for _, first := range a.Best {
		if stop != nil && stop() {
			return Result{}, ErrStopped
		}
		for i := range b.Best {
			r.Calculated++
			c := d.pair(first, b.Best[i])
			if budget := d.q.One.Budget; budget > 0 && 1-c.Cost.Price/budget < 0 {
				r.RuledOut[OverBudget]++
				continue
			}
			r.Working++
			found.add(c, d.one.yearly(c.Cost))
		}
	}
	r.Best = found.kept
	return r, nil
}

// both counts the pairs of two searches.
func both(a, b Result) Result {
	var r Result
	var outA, outB int64
	for l := range r.RuledOut {
		outA, outB = outA+a.RuledOut[l], outB+b.RuledOut[l]
	}
	r.Sets = product(a.Sets, b.Sets)
	for l := range r.RuledOut {
		r.RuledOut[l] = product(a.RuledOut[l], b.Sets) + product(a.Sets-outA, b.RuledOut[l])
	}
	r.Beaten = product(a.Sets-outA, b.Sets-outB) - product(int64(len(a.Best)), int64(len(b.Best)))
	return r
}

// product multiplies counts. Ranges of a million items a kind would be needed to leave what an int64 holds; then it stays there.
func product(a, b int64) int64 {
	if hi, lo := bits.Mul64(uint64(a), uint64(b)); hi == 0 && lo < 1<<63 {
		return int64(lo)
	}
	return 1<<63 - 1
}

// pair puts two sets together.
func (d *Desk) pair(first, fall Candidate) Candidate {
	c := first
	c.Pumps, c.Fall = Apart, &fall
	c.Cost = first.Cost.plus(fall.Cost)
	c.Cost.Total = c.Cost.Price
	if d.q.One.Tariff > 0 {
		c.Cost.Total += c.Cost.Years * c.Cost.PerYear()
	}
	if fall.Headroom < c.Headroom {
		c.Headroom, c.Tightest = fall.Headroom, fall.Tightest
	}
	return c
}

func (c Cost) plus(o Cost) Cost {
	return Cost{
		Price: c.Price + o.Price, Energy: c.Energy + o.Energy, EnergyPerYear: c.EnergyPerYear + o.EnergyPerYear,
		LampsPerYear: c.LampsPerYear + o.LampsPerYear, Years: c.Years, Total: c.Total + o.Total,
	}
}

// Judge calculates a set that is named, with its second pump where two stand apart.
func (d *Desk) Judge(set Set, pumps Arrangement, fall Set) (Candidate, error) {
	f, err := d.finder(pumps)
	if err != nil {
		return Candidate{}, err
	}
	m, _ := f.fallsShort(set)
	if pumps != Apart {
		return m.Candidate, nil
	}
	second, _ := d.fall.fallsShort(fall)
	c := d.pair(m.Candidate, second.Candidate)
	if budget := d.q.One.Budget; budget > 0 {
		if slack := unit.Ratio(1 - c.Cost.Price/budget); slack < 0 && slack < c.Headroom {
			c.Headroom, c.Tightest = slack, OverBudget
		}
	}
	return c, nil
}

// Works reports whether a candidate keeps every limit.
func (c *Candidate) Works() bool { return c.Headroom >= 0 }

// Explain calculates a candidate in full. The second detail is that of the pump of the fall, of two apart.
func (d *Desk) Explain(t *working.Trail, c Candidate, name string) (Detail, *Detail, error) {
	f, err := d.finder(c.Pumps)
	if err != nil {
		return Detail{}, nil, err
	}
	if c.Fall == nil {
		detail, err := f.Explain(t, c, name)
		return detail, nil, err
	}
	first, err := f.Explain(t, c, name+", pump of the filter")
	if err != nil {
		return Detail{}, nil, err
	}
	second, err := d.fall.Explain(t, *c.Fall, name+", pump of the fall")
	if err != nil {
		return Detail{}, nil, err
	}
	first.Cost = c.Cost
	first.Candidate.Headroom, first.Candidate.Tightest = c.Headroom, c.Tightest
	if c.Tightest == OverBudget && !c.Works() {
		first.breaks(Broken{Limit: OverBudget, Anyhow: true, Finding: d.one.overBudget(c.Cost.Price)})
	}
	for _, n := range second.Findings {
		n.Subject += " of the fall"
		first.Findings = append(first.Findings, n)
	}
	first.Broken = append(first.Broken, second.Broken...)
	return first, &second, nil
}

// WhyFirst is as that of a Finder.
func (d *Desk) WhyFirst(first, second Candidate) []string { return d.one.WhyFirst(first, second) }

// Picture is as that of a Finder; of two pumps apart it is that of the one for the filter, and the second that for the fall.
func (d *Desk) Picture(c Candidate) (Picture, *Picture, error) {
	f, err := d.finder(c.Pumps)
	if err != nil {
		return Picture{}, nil, err
	}
	if c.Fall == nil {
		return f.picture(c.Set), nil, nil
	}
	fall := d.fall.picture(c.Fall.Set)
	return f.picture(c.Set), &fall, nil
}

// Question is what a candidate answers: that of its first pump, of two apart.
func (d *Desk) Question(c Candidate) Question {
	if c.Pumps == Apart {
		return d.q.Apart.Filter
	}
	return d.q.One
}
