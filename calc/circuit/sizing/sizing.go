// Package sizing turns the question of a circuit round: which hose, which speed, which valve for the flow that is wanted.
package sizing

import (
	"fmt"
	"math"
	"slices"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// A Wish is a flow wanted of a circuit.
type Wish struct {
	Circuit tree.Circuit
	At      tree.Conditions
	Branch  string // that is to carry it; "" the pump
	Flow    unit.Flow
}

func (w Wish) check(errs *input.Errors) {
	if !(w.Flow > 0) || math.IsInf(float64(w.Flow), 0) {
		errs.Add("wish.flow_l_per_h", "give a flow above 0", "flow is %g L/h", w.Flow.LitresPerHour())
	}
	if n, err := tree.New(w.Circuit); err != nil {
		errs.AddUnder("circuit", err)
	} else if w.Branch != "" && !slices.Contains(n.Branches(), w.Branch) {
		errs.Add("wish.branch", "name a branch of the circuit", "there is no branch %q", w.Branch)
	}
}

// flow is what the wished-for branch of a circuit carries.
func (w Wish) flow(c tree.Circuit) (unit.Flow, *tree.Network, *tree.Solution, circuit.Outcome) {
	n, err := tree.New(c)
	if err != nil {
		return 0, nil, nil, circuit.NotCalculable
	}
	s, outcome := n.Solve(w.At)
	if s == nil {
		return 0, n, nil, outcome
	}
	if w.Branch == "" {
		return s.Flow, n, s, outcome
	}
	b, _ := s.Branch(w.Branch)
	return b.Flow, n, s, outcome
}

// short says that the flow wanted is not reached even at the best.
func (w Wish) short(got unit.Flow, with, change string) finding.Finding {
	return finding.Finding{
		Code: "FLOW_NOT_REACHED", Severity: finding.Stop, Subject: w.subject(), Source: source.EnergyRoundLoop,
		Sentence: fmt.Sprintf("%s L/h are wanted and only %s L/h flow %s.", finding.Whole(w.Flow.LitresPerHour()), finding.Whole(got.LitresPerHour()), with),
		Value:    finding.Of(got.LitresPerHour(), "L/h"), Limit: finding.Of(w.Flow.LitresPerHour(), "L/h"), Change: change,
	}
}

// unknown says that the circuit has no duty to start from.
func (w Wish) unknown(outcome circuit.Outcome) finding.Finding {
	return finding.Finding{
		Code: "NO_DUTY", Severity: finding.Stop, Subject: w.subject(), Source: source.EnergyRoundLoop,
		Sentence: fmt.Sprintf("The circuit as described has no flow that can be worked out (%s), so that nothing can be fitted to it.", outcome.Words()),
		Change:   "assess the circuit by itself first",
	}
}

func (w Wish) subject() string {
	if w.Branch == "" {
		return "pump"
	}
	return w.Branch
}

// replace makes a circuit with some parts exchanged, wherever they are.
func replace(c tree.Circuit, swap func(tree.Part) tree.Part) tree.Circuit {
	c.Intake = replaceBranch(c.Intake, swap)
	c.Pump = replaceParts(c.Pump, swap)
	c.Delivery = replaceBranch(c.Delivery, swap)
	return c
}

func replaceBranch(b tree.Branch, swap func(tree.Part) tree.Part) tree.Branch {
	b.Parts = replaceParts(b.Parts, swap)
	switch end := b.End.(type) {
	case tree.Fork:
		fork := make(tree.Fork, len(end))
		for i := range end {
			fork[i] = replaceBranch(end[i], swap)
		}
		b.End = fork
	case tree.Box:
		end.Outlet = replaceBranch(end.Outlet, swap)
		b.End = end
	}
	return b
}

func replaceParts(parts []tree.Part, swap func(tree.Part) tree.Part) []tree.Part {
	parts = slices.Clone(parts)
	for i, p := range parts {
		if ways, ok := p.(tree.Parallel); ok {
			paths := slices.Clone(ways.Paths)
			for j := range paths {
				paths[j].Parts = replaceParts(paths[j].Parts, swap)
			}
			parts[i] = tree.Parallel{Paths: paths}
			continue
		}
		parts[i] = swap(p)
	}
	return parts
}
