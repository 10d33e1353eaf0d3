package pump

import "example.com/pondwright/calc/unit"

// How far a curve may droop towards no flow before it is taken for a slip of the pen: the greatest head lies in the first
// half of the flows and is at most 15 % above the first. Common practice, no source.
const (
	droopFlow = 0.5
	droopHead = 1.15
)

// crest is the index of the last point of greatest head where heads rise from the first point to there and no further
// than a droop may go; 0 where they do not.
func crest(points []Point) int {
	top := 0
	for top+1 < len(points) && points[top+1].Head >= points[top].Head {
		top++
	}
	if top == 0 {
		return 0
	}
	first, last := points[0], points[len(points)-1]
	rises := points[top].Head > first.Head
	if !rises || points[top].Flow > droopFlow*last.Flow || points[top].Head > droopHead*first.Head {
		return 0
	}
	return top
}

// Droops says that head rises with flow at first: the greatest head is not that at no flow, and there are heads that the
// pump gives at two flows. Only the greater of the two is one it keeps to.
//
// A droop is accepted where the greatest head lies in the first half of the flows and is at most 15 % above the first.
func (c *Curve) Droops() bool { return c.top > 0 }

// Crest is the flow of greatest head of a curve that droops, and otherwise the first flow.
func (p Pump) Crest() unit.Flow { return p.points[p.top].Flow * unit.Flow(p.flow) }

// Greatest is the greatest head the pump is known to give.
func (p Pump) Greatest() unit.Head { return p.points[p.top].Head * unit.Head(p.head) }

// ShutOff is the head at no flow; ok is false where the curve does not begin there.
func (p Pump) ShutOff() (h unit.Head, ok bool) {
	first := p.points[0]
	return first.Head * unit.Head(p.head), first.Flow == 0
}

// riseSteps is how finely the rising part of a curve that droops is searched.
const riseSteps = 64

// OnRise brackets the flow that a pump keeps to on the rising part of its curve: excess is the head of the pump less what
// is asked of it, and falls through 0 between a and b. It searches from the crest down. Most circuits have no such flow.
func (p Pump) OnRise(excess func(q float64) float64) (a, b float64, ok bool) {
	first, _ := p.Range()
	crest := p.Crest()
	step := float64(crest-first) / riseSteps
	b = float64(crest)
	for i := riseSteps - 1; i >= 0; i-- {
		a = float64(first) + float64(i)*step
		if excess(a) > 0 && excess(b) <= 0 {
			return a, b, true
		}
		b = a
	}
	return 0, 0, false
}
