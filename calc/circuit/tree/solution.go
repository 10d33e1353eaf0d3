package tree

import (
	"math"
	"slices"

	"example.com/pondwright/calc/unit"
)

// A Solution is a circuit as it runs.
type Solution struct {
	Flow     unit.Flow // through the pump
	Head     unit.Head // that the pumps give between intake and delivery; 0 without a pump there
	Branches []Carried // in the order described, forks after the branch they end
	Parts    []Passed  // in the order described
	Boxes    []Filled
	Steps    int // how many times a loss was worked out; bounded
}

// A Carried is what one branch carries.
type Carried struct {
	Branch string
	Flow   unit.Flow // below 0 where it runs backwards
	Head   unit.Head // total head where it meets the others, above the datum
	End    unit.Head // total head at its other end
	Open   bool      // its end is an end of the circuit, and no fork
}

// A Passed is one part with what passes through it.
type Passed struct {
	Branch   string // the branch, or the path of a Parallel
	Part     string
	Flow     unit.Flow // below 0 where it runs backwards
	Lost     unit.Head // below 0 where head is gained, as in a pump
	Before   unit.Head // total head on the side the water should come from, above the datum
	Velocity unit.Velocity
}

// A Filled is an open box with water running through.
type Filled struct {
	Branch string      // that ends in it
	Level  unit.Length // of its water above the datum
	Stands unit.Length // how much higher than at rest
	Spare  unit.Length // below its rim; below 0 where it overflows
}

// Branch is what the branch of that name carries; ok is false where there is none.
func (s *Solution) Branch(name string) (c Carried, ok bool) {
	i := slices.IndexFunc(s.Branches, func(c Carried) bool { return c.Branch == name })
	if i < 0 {
		return Carried{}, false
	}
	return s.Branches[i], true
}

// Part is what passes through the part of that name; ok is false where there is none.
func (s *Solution) Part(name string) (p Passed, ok bool) {
	i := slices.IndexFunc(s.Parts, func(p Passed) bool { return p.Part == name })
	if i < 0 {
		return Passed{}, false
	}
	return s.Parts[i], true
}

// solution puts a settled network in the words of its description.
func (t *settled) solution() *Solution {
	n := t.net
	s := &Solution{
		Flow:  unit.Flow(t.flow[n.intake.index]),
		Parts: make([]Passed, len(n.elements)),
		Steps: t.steps,
	}
	t.report(s, &n.intake)
	suction := -t.potential(&n.intake)
	s.Head = unit.Head(t.potential(&n.delivery) - suction)
	t.along(s, &n.trunk, suction)
	t.report(s, &n.delivery)
	return s
}

// report says what a branch and those beyond it carry.
func (t *settled) report(s *Solution, l *limb) {
	root, end := t.potential(l), l.sign()*t.end(l)
	if t.shut(l) && l.above != nil && l.above.joint != nil { // no water ties the two ends
		root = t.joined[l.above.joint.index]
	}
	root *= l.sign()
	s.Branches = append(s.Branches, Carried{
		Branch: l.name, Flow: unit.Flow(t.flow[l.index]), Head: unit.Head(root), End: unit.Head(end), Open: l.joint == nil,
	})
	if l.intake {
		t.along(s, l, end)
	} else {
		t.along(s, l, root)
	}
	switch {
	case l.joint != nil:
		for _, next := range l.joint.limbs {
			t.report(s, next)
		}
	case l.box != nil:
		t.fill(s, l)
		t.report(s, l.box)
	}
}

func (t *settled) fill(s *Solution, l *limb) {
	level := t.potential(l.box)
	s.Boxes = append(s.Boxes, Filled{
		Branch: l.name,
		Level:  unit.Length(level),
		Stands: unit.Length(level - t.rest[l.box.index]),
		Spare:  l.end.(Box).Rim - unit.Length(level),
	})
}

// along reports the parts of a limb in the order the water takes them, from the head it comes with.
func (t *settled) along(s *Solution, l *limb, head float64) {
	for _, e := range l.parts {
		q := t.part[e.index]
		passed := Passed{Branch: l.name, Part: e.name, Flow: unit.Flow(q), Lost: unit.Head(t.loss[e.index]), Before: unit.Head(head)}
		if D := e.bore.Metres(); D > 0 {
			passed.Velocity = unit.Velocity(math.Abs(q) * 4 / (math.Pi * D * D))
		}
		s.Parts[e.index] = passed
		if e.joint != nil {
			for _, path := range e.joint.limbs {
				t.along(s, path, head)
			}
		}
		head -= t.loss[e.index]
	}
}
