package defect

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/source"
)

// A Checker checks the curves of one catalogue, in order. Its memory is bounded whatever their number. It is not safe for
// concurrent use.
type Checker struct {
	grade     pump.Grade
	near      neighbourhood
	copies    copies
	review    tallies
	place     int // of the next curve
	sheets    []sheet
	repairing sheet
	// Spread does something for each number below n, on several processors if it likes. Left out, one after the other. What is done for
	// one number touches nothing that is done for another, and the results do not depend on the order.
	Spread func(n int, do func(i int))
}

func (c *Checker) spread(n int, do func(i int)) {
	if c.Spread != nil {
		c.Spread(n, do)
		return
	}
	for i := range n {
		do(i)
	}
}

// NewChecker makes a Checker that holds measured points to an acceptance grade.
func NewChecker(grade pump.Grade) *Checker {
	return &Checker{grade: grade, near: newNeighbourhood(), copies: newCopies(), review: newTallies()}
}

// Checked is how many curves were checked, those of a restored state included.
func (c *Checker) Checked() int { return c.place }

// Check checks the next curves, and gives one result each. They are one another's neighbours, with all that came before.
// What is given is not kept.
func (c *Checker) Check(curves []Curve) []Result {
	for len(c.sheets) < len(curves) {
		c.sheets = append(c.sheets, sheet{})
	}
	ready := make([]bool, len(curves))
	c.spread(len(curves), func(i int) { ready[i] = c.sheets[i].lay(&curves[i]) })
	for i := range curves {
		if s := &c.sheets[i]; ready[i] && s.stands() {
			c.near.add(seriesOf(&curves[i]), s.shape, s.p != nil)
		}
	}
	near := make([]*spread, len(curves))
	spreads := map[string]*spread{}
	for i := range curves {
		if ready[i] {
			var ok bool
			series := seriesOf(&curves[i])
			if near[i], ok = spreads[series]; !ok {
				near[i] = c.near.of(series)
				spreads[series] = near[i]
			}
		}
	}
	c.spread(len(curves), func(i int) {
		if ready[i] {
			c.sheets[i].judge(near[i], c.grade)
		}
	})
	results := make([]Result, len(curves))
	for i := range curves {
		s, neighbours := &c.sheets[i], near[i]
		c.twice(s, ready[i], neighbours)
		results[i] = Result{Place: c.place, Defects: s.found}
		if len(s.found) > 0 {
			gravestFirst(results[i].Defects)
			results[i].Repair = c.repair(s, ready[i], neighbours)
		}
		c.review.add(s, results[i], ready[i])
		if ready[i] && !s.slipped && results[i].Worst() != finding.Stop {
			c.review.outlying(s, c.place, neighbours)
		}
		s.found, s.curve = nil, nil
		c.place++
	}
	return results
}

// lay puts a curve on the sheet, in order and each flow once. It is false where there is nothing to look at further.
func (s *sheet) lay(c *Curve) bool {
	if !s.ready(c) {
		return false
	}
	s.turned = s.swapped()
	s.sorted(s.turned)
	if !s.woven() {
		s.single()
	} else {
		s.mixed = true
	}
	s.measure()
	return !s.nothing() && len(s.q) >= 2
}

// stands says whether a curve is fit to be a neighbour of others: in place, and not out of all proportion.
func (s *sheet) stands() bool {
	const outOfProportion = -5
	return s.shape.known && !s.mixed && s.likely(s.shape, s.last, s.top) > outOfProportion
}

// judge runs every check of one curve.
func (s *sheet) judge(neighbours *spread, grade pump.Grade) {
	if s.mixed {
		return // no check speaks of two curves at once
	}
	s.energy()
	s.labels()
	s.rises()
	if !s.has(HeadRises) {
		s.offCurve()
	}
	if s.off == nowhere && !s.has(HeadRises) && !s.has(HeadDips) { // else one wrong point makes all of them look wrong
		s.slip, s.slipped = s.units(neighbours)
	}
	if s.slipped {
		s.apply(s.slip)
	}
	s.bounds()
	s.powerOffCurve()
	s.falling()
	s.ends()
	s.measured(grade)
	if len(s.found) == 0 || s.onlySlight() {
		s.formula()
		s.tooPrecise()
	}
}

// onlySlight says whether nothing found has to do with how the numbers came about.
func (s *sheet) onlySlight() bool {
	for _, d := range s.found {
		if d.Severity == finding.Stop {
			return false
		}
	}
	return true
}

// apply turns the sheet into the unit that was meant, so that the rest of it can be judged.
func (s *sheet) apply(c slip) {
	for i := range s.q {
		s.q[i] *= c.flow
		s.h[i] *= c.head
		if s.p != nil {
			s.p[i] *= c.power
		}
	}
	s.shape, s.top = figures{}, 0
	s.measure()
}

// twice looks for the curve, and its number, among those before it.
func (c *Checker) twice(s *sheet, ready bool, neighbours *spread) {
	if before, ok := c.copies.again(s.curve.Number, c.place); ok {
		s.add(ItemNumberTwice, 1, source.Definition, "give each item a number of its own",
			fmt.Sprintf("The number %q is that of place %d already.", short(s.curve.Number), before), of("place of the other", float64(before), "1"))
	}
	if !ready || s.mixed {
		return
	}
	m := s.imprintOf(c.place)
	if k, ok := c.copies.find(m, s); ok {
		if k.kind != kinUnit {
			s.tellCopy(k)
		} else if !s.slipped && s.betterAsTwin(k, neighbours) {
			s.twinUnit(k)
		}
	}
	c.copies.keep(m)
}

// betterAsTwin says whether a curve is at least as likely with its twin's figures as with its own: of two that differ by a unit,
// one is right.
func (s *sheet) betterAsTwin(k kinship, neighbours *spread) bool {
	f := s.after(slip{flow: 1 / k.flow, head: 1 / k.head, power: 1})
	own, twins := s.likely(s.shape, s.last, s.top), s.likely(f, s.last/k.flow, s.top/k.head)
	if neighbours != nil {
		own, twins = neighbours.alike(s.shape, s.p != nil), neighbours.alike(f, s.p != nil)
	}
	return twins > own-0.5 && !math.IsNaN(twins)
}

// Alone checks one curve by itself: without neighbours, and without looking for copies.
func Alone(c Curve) []Defect {
	var s sheet
	if s.lay(&c) {
		s.judge(nil, pump.Grade{Tolerance: pump.Usual()})
	}
	gravestFirst(s.found)
	return s.found
}
