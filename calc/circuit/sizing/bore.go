package sizing

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// An Offer is a hose that can be had.
type Offer struct {
	Name  string
	Hose  pipe.Spec // bore, tail bore, wall, roughness and their limits; length and fittings are those of the circuit
	Price float64   // a metre; 0 where not known
}

// A Trial is a circuit with one offer laid.
type Trial struct {
	Offer    int       // in the list
	Flow     unit.Flow // of the branch wished for; 0 where there is no duty
	Speed    unit.Ratio
	Power    unit.Power    // 0 where not known
	Velocity unit.Velocity // the greatest in the hose laid, at that flow
	Outcome  circuit.Outcome
	Cost     Cost
}

// Cost is what an offer costs over the years.
type Cost struct{ Hose, Energy, Total float64 }

// Known says that the cost was worked out: the flow is reached and the power of the pump is known.
func (c Cost) Known() bool { return c.Energy > 0 }

// Economy is what money is asked about.
type Economy struct {
	Years       float64
	HoursPerDay float64
	PerKWh      float64
	Slowed      bool // the pump's speed can be set, and is set to the flow wanted
}

// EnergyInput is the input of EnergyCost.
type EnergyInput struct {
	Power unit.Power `sym:"P"`
	Time  unit.Time  `sym:"t"`
	Price float64    `sym:"c"`
}

// EnergyCost gives what electricity costs over a time.
//
//	C = P t c    P in W, t in s, c per kWh of 3.6 MJ
//
// Prices are taken as they are today: neither interest nor dearer electricity is reckoned with.
// Source: definition.
var EnergyCost = working.Formula[EnergyInput, float64]{
	ID: "sizing.energy-cost", Name: "cost of electricity", Symbol: "C", Equation: "C = P t c", Source: source.EnergyPrice,
	Eval: func(in EnergyInput) float64 { return in.Power.Over(in.Time).KilowattHours() * in.Price },
}

// LeastBore is the offer of least bore with which the flow wished for is reached when it is laid for all hoses named. Trials
// are in the order of bores. The first return is nil where none reaches it, and a finding then says so.
func LeastBore(w Wish, hoses []string, offers []Offer) (*Trial, []Trial, []finding.Finding, error) {
	trials, err := w.try(hoses, offers)
	if err != nil {
		return nil, nil, nil, err
	}
	slices.SortStableFunc(trials, func(a, b Trial) int { return cmp.Compare(offers[a.Offer].Hose.Bore, offers[b.Offer].Hose.Bore) })
	best := Trial{}
	for i := range trials {
		if trials[i].Flow >= w.Flow {
			return &trials[i], trials, fast(trials[i], offers), nil
		}
		if trials[i].Flow > best.Flow {
			best = trials[i]
		}
	}
	return nil, trials, []finding.Finding{w.short(best.Flow, "through the widest hose of the list", "take a stronger pump, a shorter way or less lift")}, nil
}

// LeastCost is the offer that costs least over the years among those with which the flow wished for is reached.
func LeastCost(t *working.Trail, w Wish, hoses []string, offers []Offer, e Economy) (*Trial, []Trial, []finding.Finding, error) {
	trials, err := w.try(hoses, offers)
	if err != nil {
		return nil, nil, nil, err
	}
	if err := e.check(offers); err != nil {
		return nil, nil, nil, err
	}
	length := w.length(hoses)
	var best *Trial
	reached := unit.Flow(0)
	for i := range trials {
		trial := &trials[i]
		reached = max(reached, trial.Flow)
		if trial.Flow < w.Flow {
			continue
		}
		w.settle(t, trial, hoses, offers, e, length)
		if trial.Cost.Known() && (best == nil || trial.Cost.Total < best.Cost.Total) {
			best = trial
		}
	}
	if best != nil {
		return best, trials, fast(*best, offers), nil
	}
	if reached >= w.Flow {
		return nil, trials, []finding.Finding{{
			Code: "POWER_NOT_KNOWN", Severity: finding.Stop, Subject: "pump", Source: source.Definition,
			Sentence: "What the pump takes from the mains is not known, so that hose and energy cannot be weighed against each other.",
			Change:   "give the pump's power, best at each point of its curve",
		}}, nil
	}
	return nil, trials, []finding.Finding{w.short(reached, "through the best hose of the list", "take a stronger pump, a shorter way or less lift")}, nil
}

// settle slows the pump where it can be slowed, and adds up what the trial costs, where the pump's power is known.
func (w Wish) settle(t *working.Trail, trial *Trial, hoses []string, offers []Offer, e Economy, length unit.Length) {
	offer := offers[trial.Offer]
	if e.Slowed {
		laid := w
		laid.Circuit, _ = lay(w.Circuit, hoses, offer)
		if slowed, ok := laid.slow(); ok {
			trial.Speed, trial.Power, trial.Flow = slowed.Speed, slowed.Power, w.Flow
			if _, _, s, _ := w.flow(atSpeed(laid.Circuit, slowed.Speed)); s != nil {
				trial.Velocity = fastest(s, hoses)
			}
		}
	}
	if trial.Power == 0 {
		return
	}
	t.About(offer.Name)
	trial.Cost.Hose = offer.Price * length.Metres()
	trial.Cost.Energy = EnergyCost.Run(t, EnergyInput{trial.Power, unit.Days(e.Years * 365.25 * e.HoursPerDay / 24), e.PerKWh})
	trial.Cost.Total = trial.Cost.Hose + trial.Cost.Energy
}

func (e Economy) check(offers []Offer) error {
	var errs input.Errors
	if !(e.Years > 0) || !(e.HoursPerDay > 0 && e.HoursPerDay <= 24) || !(e.PerKWh > 0) {
		errs.Add("economy", "give years, hours a day and the price of a kilowatt-hour above 0", "%g years, %g h a day, %g a kWh", e.Years, e.HoursPerDay, e.PerKWh)
	}
	for i, o := range offers {
		if !(o.Price > 0) {
			errs.Add(fmt.Sprintf("offers[%d].price_per_m", i), "give the price of a metre", "price is %g", o.Price)
		}
	}
	return errs.Err()
}

// try lays each offer.
func (w Wish) try(hoses []string, offers []Offer) ([]Trial, error) {
	var errs input.Errors
	w.check(&errs)
	if len(offers) == 0 {
		errs.Add("offers", "give the hoses that can be had", "there are no hoses to choose from")
	}
	if len(hoses) == 0 {
		errs.Add("hoses", "name hoses of the circuit", "no hose of the circuit is named")
	}
	for i, name := range hoses {
		if w.length([]string{name}) == 0 {
			errs.Add(fmt.Sprintf("hoses[%d]", i), "name a hose of the circuit", "there is no hose %q", name)
		}
	}
	if errs.Err() != nil {
		return nil, errs.Err()
	}
	trials := make([]Trial, len(offers))
	for i, offer := range offers {
		laid, err := lay(w.Circuit, hoses, offer)
		if err != nil {
			errs.AddUnder(fmt.Sprintf("offers[%d]", i), err)
			continue
		}
		trials[i] = Trial{Offer: i, Speed: 1}
		q, n, s, outcome := w.flow(laid)
		trials[i].Outcome = outcome
		if s != nil {
			trials[i].Flow = q
			trials[i].Power, _ = n.Power(s)
			trials[i].Velocity = fastest(s, hoses)
		}
	}
	return trials, errs.Err()
}

// lay puts an offer in the place of the hoses named.
func lay(c tree.Circuit, hoses []string, o Offer) (laid tree.Circuit, err error) {
	laid = replace(c, func(p tree.Part) tree.Part {
		h, ok := p.(tree.Hose)
		if !ok || !slices.Contains(hoses, h.Name) {
			return p
		}
		spec, old := o.Hose, h.Run.Spec()
		spec.Length, spec.Fittings, spec.OtherK = old.Length, old.Fittings, old.OtherK
		run, failed := pipe.NewRun(spec)
		if failed != nil {
			err = failed
			return p
		}
		return tree.Hose{Name: h.Name, Run: run}
	})
	return laid, err
}

// length is that of the hoses named, together.
func (w Wish) length(hoses []string) unit.Length {
	sum := unit.Length(0)
	replace(w.Circuit, func(p tree.Part) tree.Part {
		if h, ok := p.(tree.Hose); ok && h.Run != nil && slices.Contains(hoses, h.Name) {
			sum += h.Run.Spec().Length
		}
		return p
	})
	return sum
}

func fastest(s *tree.Solution, hoses []string) unit.Velocity {
	v := unit.Velocity(0)
	for _, p := range s.Parts {
		if slices.Contains(hoses, p.Part) {
			v = max(v, p.Velocity)
		}
	}
	return v
}

func fast(t Trial, offers []Offer) []finding.Finding {
	if t.Velocity <= circuit.VelocityLimit {
		return nil
	}
	return []finding.Finding{{
		Code: "FAST_IN_HOSE", Severity: finding.Caution, Subject: offers[t.Offer].Name, Source: source.EN806,
		Sentence: fmt.Sprintf("Water runs at %.1f m/s here, above the %.1f m/s of good practice for rising pipes.",
			t.Velocity.MetresPerSecond(), circuit.VelocityLimit.MetresPerSecond()),
		Value: finding.Of(t.Velocity.MetresPerSecond(), "m/s"), Limit: finding.Of(circuit.VelocityLimit.MetresPerSecond(), "m/s"),
		Change: "take the next wider hose",
	}}
}

// Formulas lists the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{&EnergyCost, &ValveCoefficient}
}
