package sizing

import (
	"math"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/root"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// CoefficientInput is the input of ValveCoefficient.
type CoefficientInput struct {
	Head     unit.Head     `sym:"h"`
	Velocity unit.Velocity `sym:"v"`
}

// ValveCoefficient gives the loss coefficient that takes a head at a velocity.
//
//	K = h 2 g/v²    h in m, v in m/s, g = 9.80665 m/s²
//
// Holds for v > 0.
// Source: definition of the loss coefficient.
var ValveCoefficient = working.Formula[CoefficientInput, float64]{
	ID: "sizing.valve-coefficient", Name: "loss coefficient to set a valve to", Symbol: "K", Equation: "K = h 2 g/v²",
	Source: source.Definition,
	Eval: func(in CoefficientInput) float64 {
		v := in.Velocity.MetresPerSecond()
		return in.Head.Metres() * 2 * water.Gravity / (v * v)
	},
}

// A Slowed is a circuit with its pumps slowed to a flow.
type Slowed struct {
	Speed unit.Ratio // of all pumps, by the speed they are described at
	Power unit.Power // from the mains, by the affinity laws; 0 where not known
}

const (
	slowest  = 0.05 // below which no speed is tried
	widest   = 1e9  // loss coefficient above which a valve counts as shut
	nearOpen = 1e-3 // loss coefficient that makes no difference
)

// Slow finds the speed at which the flow wished for is reached; nil where full speed does not reach it.
func Slow(w Wish) (*Slowed, []finding.Finding, error) {
	var errs input.Errors
	w.check(&errs)
	if err := errs.Err(); err != nil {
		return nil, nil, err
	}
	full, _, s, outcome := w.flow(w.Circuit)
	switch {
	case s == nil:
		return nil, []finding.Finding{w.unknown(outcome)}, nil
	case full < w.Flow:
		return nil, []finding.Finding{w.short(full, "at full speed", "take a stronger pump, a wider hose or less lift")}, nil
	}
	slowed, ok := w.slow()
	if !ok {
		return nil, []finding.Finding{w.unknown(circuit.NotCalculable)}, nil
	}
	_, n, s, _ := w.flow(atSpeed(w.Circuit, slowed.Speed))
	_, found := n.Assess(nil, w.At)
	if s == nil {
		return nil, found, nil
	}
	return &slowed, found, nil
}

// slow searches for the speed; flow rises with it.
func (w Wish) slow() (Slowed, bool) {
	n, ok := root.Find(func(n float64) float64 {
		q, _, _, _ := w.flow(atSpeed(w.Circuit, unit.Ratio(n)))
		return float64(q - w.Flow)
	}, slowest, 1)
	if !ok {
		return Slowed{}, false
	}
	speed := unit.Ratio(n)
	_, network, s, _ := w.flow(atSpeed(w.Circuit, speed))
	if s == nil {
		return Slowed{}, false
	}
	power, _ := network.Power(s)
	return Slowed{Speed: speed, Power: power}, true
}

func atSpeed(c tree.Circuit, n unit.Ratio) tree.Circuit {
	return replace(c, func(p tree.Part) tree.Part {
		if one, ok := p.(tree.Pump); ok {
			one.Pump = one.Pump.AtSpeed(n)
			return one
		}
		return p
	})
}

// A Setting is a valve as it is to be set.
type Setting struct {
	Valve  string
	Branch string
	Flow   unit.Flow
	Head   unit.Head // the valve takes then
	K      float64   // on the valve's bore
	Kv     unit.Flow // the flow that would take 1 bar; 0 wide open
}

// Throttle finds the setting of a valve, open as described, at which no more than the flow wished for passes; nil where
// it does not reach so far down or the flow is not reached with it open.
func Throttle(t *working.Trail, w Wish, valve string) (*Setting, []finding.Finding, error) {
	var errs input.Errors
	w.check(&errs)
	v, ok := w.valve(valve)
	if !ok {
		errs.Add("throttle", "name a valve of the circuit that is given by bore and loss coefficient", "there is no such valve %q", valve)
	}
	if err := errs.Err(); err != nil {
		return nil, nil, err
	}
	open, _, s, outcome := w.flow(w.Circuit)
	switch {
	case s == nil:
		return nil, []finding.Finding{w.unknown(outcome)}, nil
	case open < w.Flow:
		return nil, []finding.Finding{w.short(open, "with the valve open", "take a stronger pump, a wider hose or less lift")}, nil
	}
	excess := func(logK float64) float64 {
		q, _, _, _ := w.flow(set(w.Circuit, valve, math.Exp(logK)))
		return float64(q - w.Flow)
	}
	logK, ok := root.Find(excess, math.Log(max(v.K, nearOpen)), math.Log(widest))
	if !ok {
		return nil, []finding.Finding{w.noEffect(valve)}, nil
	}
	_, _, s, _ = w.flow(set(w.Circuit, valve, math.Exp(logK)))
	if s == nil {
		return nil, []finding.Finding{w.noEffect(valve)}, nil
	}
	p, _ := s.Part(valve)
	t.About(valve)
	return &Setting{
		Valve: valve, Branch: p.Branch, Flow: p.Flow, Head: p.Lost,
		K:  ValveCoefficient.Run(t, CoefficientInput{p.Lost, p.Velocity}),
		Kv: pipe.KvFor.Run(t, pipe.KvForInput{Flow: p.Flow, Head: p.Lost}),
	}, nil, nil
}

func (w Wish) noEffect(valve string) finding.Finding {
	return finding.Finding{
		Code: "VALVE_DOES_NOT_REACH", Severity: finding.Stop, Subject: valve, Source: source.EnergyRoundLoop,
		Sentence: "Shutting this valve does not bring the flow down to what is wanted.",
		Change:   "throttle on the way of the water that is too much, never on the intake",
	}
}

// valve finds a valve by its name.
func (w Wish) valve(name string) (found tree.Valve, ok bool) {
	replace(w.Circuit, func(p tree.Part) tree.Part {
		if v, is := p.(tree.Valve); is && v.Name == name && v.Bore > 0 {
			found, ok = v, true
		}
		return p
	})
	return found, ok
}

func set(c tree.Circuit, valve string, k float64) tree.Circuit {
	return replace(c, func(p tree.Part) tree.Part {
		if v, ok := p.(tree.Valve); ok && v.Name == valve {
			return tree.Valve{Name: v.Name, Bore: v.Bore, K: k}
		}
		return p
	})
}
