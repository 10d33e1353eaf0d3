package sizing

import (
	"fmt"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Share is what one branch of a fork is to get, through a valve on a bore.
type Share struct {
	Branch string
	Part   unit.Ratio  // of the water that comes to the fork
	Bore   unit.Length // of the valve to fit or set in it
}

// A Divided is a circuit whose branches share their water as asked.
type Divided struct {
	Flow     unit.Flow // through the pump
	Settings []Setting // one a branch; that of least resistance to spare has K 0, its valve wide open
}

// Split finds what valves in the branches of a fork are to take, on top of what is described, so that they share their
// water as asked. One valve stays wide open, which loses least. Divided is nil where the circuit has no duty so.
func Split(t *working.Trail, c tree.Circuit, at tree.Conditions, fork string, shares []Share) (*Divided, []finding.Finding, error) {
	var errs input.Errors
	n, err := tree.New(c)
	errs.AddUnder("circuit", err)
	for i, s := range shares {
		if !(s.Bore > 0) {
			errs.Add(fmt.Sprintf("split.shares[%d].bore_mm", i), "give the bore of the valve", "bore is %g mm", s.Bore.Millimetres())
		}
	}
	if err := errs.Err(); err != nil {
		return nil, nil, err
	}
	parts, err := inOrder(n, fork, shares)
	if err != nil {
		return nil, nil, err
	}
	q, spares, outcome, err := n.Split(at, fork, parts)
	if errs.AddUnder("split", err); errs.Err() != nil {
		return nil, nil, errs.Err()
	}
	if outcome != circuit.Meets {
		return nil, []finding.Finding{{
			Code: "NO_DUTY", Severity: finding.Stop, Subject: fork, Source: source.EnergyRoundLoop,
			Sentence: fmt.Sprintf("With the water shared out so there is no flow that can be worked out: %s.", outcome.Words()),
			Change:   "ask for less through the highest or narrowest branch, or take a stronger pump",
		}}, nil
	}
	d := &Divided{Flow: q}
	for _, spare := range spares {
		d.Settings = append(d.Settings, setting(t, spare, shares))
	}
	return d, nil, nil
}

func setting(t *working.Trail, spare tree.Spare, shares []Share) Setting {
	s := Setting{Branch: spare.Branch, Flow: spare.Flow, Head: spare.Head}
	for _, share := range shares {
		if share.Branch == spare.Branch && spare.Head > 0 {
			t.About("valve of " + spare.Branch)
			v := pipe.Velocity.Run(t, pipe.VelocityInput{Flow: spare.Flow, Bore: share.Bore})
			s.K = ValveCoefficient.Run(t, CoefficientInput{spare.Head, v})
			s.Kv = pipe.KvFor.Run(t, pipe.KvForInput{Flow: spare.Flow, Head: spare.Head})
		}
	}
	return s
}

// inOrder puts shares in the order of the branches of the fork.
func inOrder(n *tree.Network, fork string, shares []Share) ([]unit.Ratio, error) {
	var errs input.Errors
	branches := n.BranchesOf(fork)
	if len(branches) == 0 {
		errs.Add("split.fork", "name a branch that forks", "%q is none", fork)
		return nil, errs.Err()
	}
	parts := make([]unit.Ratio, len(branches))
	for i, s := range shares {
		known := false
		for j, name := range branches {
			if name == s.Branch {
				parts[j], known = s.Part, true
			}
		}
		if !known {
			errs.Add(fmt.Sprintf("split.shares[%d].branch", i), "name a branch of the fork", "%q is not one of its branches", s.Branch)
		}
	}
	return parts, errs.Err()
}
