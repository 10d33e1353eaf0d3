package tree

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Width is how far the flows of a circuit may be off.
type Width struct {
	Flow       circuit.Band[unit.Flow] // through the pump
	Branches   []BranchWidth           // in the order of Solution.Branches
	Influences []Influence             // on the flow asked for, greatest first
}

// A BranchWidth is how far the flow of one branch may be off.
type BranchWidth struct {
	Branch string
	Flow   circuit.Band[unit.Flow]
}

// An Influence is what one input does to the flow asked for.
type Influence struct {
	Input   string     // in plain words: "bore of hose, box figure"
	Subject string     // the hose, pump, device or branch it belongs to
	Flow    unit.Flow  // the flow is so much more or less as the input lies at one end of its width
	Share   unit.Ratio // of the square of the width
}

// QuadratureInput is the input of Quadrature.
type QuadratureInput struct {
	Before unit.Flow `sym:"w"`
	Effect unit.Flow `sym:"q"`
}

// Quadrature adds the effect of one more input to half the width of a flow, as those of inputs add that have nothing to
// do with each other.
//
//	w′ = √(w² + q²)
//
// q is the change of flow for half the width of the input, dQ/dx u, to first order.
// Source: Guide to the expression of uncertainty in measurement, clause 5.1.2.
var Quadrature = working.Formula[QuadratureInput, unit.Flow]{
	ID: "tree.quadrature", Name: "half the width of a flow", Symbol: "w′", Equation: "w′ = √(w² + q²)", Source: source.Quadrature,
	Eval: func(in QuadratureInput) unit.Flow {
		return unit.Flow(math.Hypot(float64(in.Before), float64(in.Effect)))
	},
}

// An uncertain input moves heads by so much at flows that stay.
type uncertain struct {
	input, subject string
	by             nudge
}

// Width gives the width of every flow from that of every input, and names the inputs by what they do to the flow of one
// branch, or of the pump where of is "". Derivatives are exact, at the point solved; the width is of first order, and
// inputs are taken to have nothing to do with each other, but for flow and head of one pump, which are off together.
// Width is nil where the circuit does not run.
func (n *Network) Width(t *working.Trail, c Conditions, tolerance pump.Tolerance, sure Sureness, of string) (*Width, []finding.Finding) {
	s, outcome := n.settled(c)
	if outcome != circuit.Meets {
		return nil, n.missed(s, c, outcome)
	}
	asked := &n.trunk
	if l := s.named(of); l != nil {
		asked = l
	}
	w := &Width{}
	squares := make([]float64, len(n.limbs))
	for _, x := range s.uncertain(tolerance, sure) {
		change := s.respond(x.by)
		for i, dq := range change {
			squares[i] += dq * dq
		}
		if dq := math.Abs(change[asked.index]); dq > 0 {
			w.Influences = append(w.Influences, Influence{Input: x.input, Subject: x.subject, Flow: unit.Flow(dq)})
		}
	}
	w.rank(t)
	w.Flow = s.band(&n.trunk, squares)
	for _, b := range s.solution().Branches {
		w.Branches = append(w.Branches, BranchWidth{Branch: b.Branch, Flow: s.band(s.named(b.Branch), squares)})
	}
	return w, w.findings(s.band(asked, squares), of)
}

// rank puts the greatest influence first and records how they add up.
func (w *Width) rank(t *working.Trail) {
	slices.SortStableFunc(w.Influences, func(a, b Influence) int { return cmp.Compare(b.Flow, a.Flow) })
	total := unit.Flow(0)
	for _, i := range w.Influences {
		t.About(i.Input + ": " + i.Subject)
		total = Quadrature.Run(t, QuadratureInput{total, i.Flow})
	}
	for i := range w.Influences {
		part := float64(w.Influences[i].Flow / total)
		w.Influences[i].Share = unit.Ratio(part * part)
	}
}

func (t *settled) band(l *limb, squares []float64) circuit.Band[unit.Flow] {
	q, half := t.flow[l.index], math.Sqrt(squares[l.index])
	low := q - half
	if l.oneWay || q >= 0 {
		low = max(low, 0)
	}
	return circuit.Band[unit.Flow]{Low: unit.Flow(low), Expected: unit.Flow(q), High: unit.Flow(q + half)}
}

// findings name the input that matters most.
func (w *Width) findings(b circuit.Band[unit.Flow], of string) []finding.Finding {
	if len(w.Influences) == 0 {
		return nil
	}
	if of == "" {
		of = "pump"
	}
	most := w.Influences[0]
	f := finding.Finding{
		Code: "MATTERS_MOST", Severity: finding.Note, Subject: most.Subject, Source: source.Quadrature,
		Sentence: fmt.Sprintf("The flow of %s L/h may be %s to %s, mostly because of the %s: it alone is worth %s L/h either way.",
			whole(b.Expected), whole(b.Low), whole(b.High), inputOf(most), whole(most.Flow)),
		Value:  finding.Of(most.Flow.LitresPerHour(), "L/h"),
		Change: "measure that one first",
	}
	found := []finding.Finding{f}
	if half := b.High - b.Expected; b.Expected > 0 && half > b.Expected/2 {
		found = append(found, finding.Finding{
			Code: "FLOW_HARDLY_KNOWN", Severity: finding.Caution, Subject: of, Source: source.Quadrature,
			Sentence: fmt.Sprintf("The flow of %s L/h may be %s L/h more or less, and a width so great is itself only a first estimate.",
				whole(b.Expected), whole(half)),
			Value: finding.Of(half.LitresPerHour(), "L/h"), Limit: finding.Of((b.Expected / 2).LitresPerHour(), "L/h"),
			Change: "measure what matters most, or measure the flow with a bucket",
		})
	}
	return found
}

func whole(q unit.Flow) string { return finding.Whole(q.LitresPerHour()) }

// inputOf names an input with what it belongs to: "bore of hose (rising hose, box figure)".
func inputOf(i Influence) string {
	what, how, told := strings.Cut(i.Input, ", ")
	if told {
		return fmt.Sprintf("%s (%s, %s)", what, i.Subject, how)
	}
	return fmt.Sprintf("%s (%s)", what, i.Subject)
}
