// Package states answers for all the states a pond's circuit runs in from one description: summer with the filter clean
// and due for cleaning, winter, flushing to the drain, stopped, and a hose that has come off while the pump runs on.
package states

import (
	"slices"

	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// A Description is a circuit with the pond it stands in.
type Description struct {
	Circuit  tree.Circuit // as it runs in summer; heights from the pond's surface
	Winter   *Change      // nil where the pump is taken out or runs on as in summer
	Flush    *Change      // nil where there is no drain
	FlushFor unit.Time    // how long it is flushed; 0 where not known
	Pond     Pond
	Transit  unit.Volume // on its way over falls and streams while the pump runs, which comes down when it stops
	Summer   water.Properties
	Cold     water.Properties // the water of winter
	Stop     func() bool      // as in tree.Conditions
}

// A Change is what is different in a state. What it leaves out is as in summer.
type Change struct {
	Intake   *tree.Branch
	Delivery *tree.Branch
	Speed    unit.Ratio // of all pumps; 0 as in summer
}

// A Pond is what the level of the water depends on.
type Pond struct {
	Surface   unit.Area
	Freeboard unit.Length // from the level while the pump runs to the lowest edge; 0 where not known
	Levels    Levels      // how volume goes with level; nil takes the surface as that at every depth
}

// Levels are how the volume of a pond goes with its level, as outline.Curve knows it.
type Levels interface {
	Volume() unit.Volume
	VolumeLost(fallen unit.Length) unit.Volume
	DropFor(lost unit.Volume) (unit.Length, bool)
}

// States is everything there is to say. A state that is not described is nil.
type States struct {
	Clean, Due *Running
	Winter     *Running
	Flushing   *Flushing
	Stopped    Stopped
	HoseOff    HoseOff
}

// A Running is a state in which water flows round. The solution is nil where it does not, and a finding then says why.
type Running struct {
	Solution *tree.Solution
	Power    unit.Power // 0 where not known
	Findings []finding.Finding
}

// All gives all states. An error means that the description cannot be calculated with; its fields are those of
// Description.
func All(t *working.Trail, d Description) (*States, error) {
	networks, err := d.networks()
	if err != nil {
		return nil, err
	}
	s := &States{}
	summer, fouled := tree.Conditions{Water: d.Summer, Stop: d.Stop}, tree.Conditions{Water: d.Summer, Due: true, Stop: d.Stop}
	s.Clean = run(t, "summer, filter clean", networks.summer, summer)
	s.Due = run(t, "summer, filter due for cleaning", networks.summer, fouled)
	if networks.winter != nil {
		s.Winter = run(t, "winter", networks.winter, tree.Conditions{Water: d.Cold, Stop: d.Stop})
	}
	if networks.flush != nil {
		t.About("flushing")
		s.Flushing = d.flush(t, run(t, "flushing", networks.flush, fouled))
	}
	t.About("stopped")
	s.Stopped = d.stop(t, s.Clean.Solution)
	s.HoseOff = d.hoseOff(t, networks.open)
	return s, nil
}

func run(t *working.Trail, name string, n *tree.Network, c tree.Conditions) *Running {
	c.Subject = name
	r := &Running{}
	r.Solution, r.Findings = n.Assess(t, c)
	if r.Solution != nil {
		r.Power, _ = n.Power(r.Solution)
	}
	return r
}

// networks are the circuits of the states that move water.
type networks struct{ summer, winter, flush, open *tree.Network }

func (d Description) networks() (n networks, err error) {
	var errs input.Errors
	prepare := func(path string, c tree.Circuit) *tree.Network {
		made, err := tree.New(c)
		errs.AddUnder(path, err)
		return made
	}
	if n.summer = prepare("circuit", d.Circuit); n.summer != nil { // or else each state would tell of the same fault
		if d.Winter != nil {
			n.winter = prepare("winter", d.Winter.of(d.Circuit))
		}
		if d.Flush != nil {
			n.flush = prepare("flush", d.Flush.of(d.Circuit))
		}
	}
	d.checkHeights(&errs)
	d.checkWater(&errs)
	if !(d.Pond.Surface > 0) {
		errs.Add("pond.surface_m2", "give the surface of the pond", "surface is %g m²", d.Pond.Surface.SquareMetres())
	}
	if err := errs.Err(); err != nil {
		return n, err
	}
	n.open = prepare("circuit", withoutHose(d.Circuit))
	return n, errs.Err()
}

// of is a circuit with the change made.
func (c *Change) of(circuit tree.Circuit) tree.Circuit {
	if c.Intake != nil {
		circuit.Intake = *c.Intake
	}
	if c.Delivery != nil {
		circuit.Delivery = *c.Delivery
	}
	if c.Speed != 0 {
		circuit.Pump = atSpeed(circuit.Pump, c.Speed)
	}
	return circuit
}

// atSpeed is a row of parts with its pumps at another speed.
func atSpeed(parts []tree.Part, n unit.Ratio) []tree.Part {
	parts = slices.Clone(parts)
	for i, p := range parts {
		switch p := p.(type) {
		case tree.Pump:
			p.Pump = p.Pump.AtSpeed(n)
			parts[i] = p
		case tree.Parallel:
			paths := slices.Clone(p.Paths)
			for j := range paths {
				paths[j].Parts = atSpeed(paths[j].Parts, n)
			}
			parts[i] = tree.Parallel{Paths: paths}
		}
	}
	return parts
}

// withoutHose is a circuit whose delivery hose has come off at the pump: it lets its water go at the height of the pond.
func withoutHose(c tree.Circuit) tree.Circuit {
	c.Delivery = tree.Branch{Name: c.Delivery.Name, End: tree.Outlet{}}
	return c
}

// checkHeights checks the intakes of all states.
func (d Description) checkHeights(errs *input.Errors) {
	fromSurface(errs, "circuit.intake", d.Circuit.Intake)
	if d.Winter != nil && d.Winter.Intake != nil {
		fromSurface(errs, "winter.intake", *d.Winter.Intake)
	}
	if d.Flush != nil && d.Flush.Intake != nil {
		fromSurface(errs, "flush.intake", *d.Flush.Intake)
	}
}

func (d Description) checkWater(errs *input.Errors) {
	if !(d.Summer.Viscosity > 0 && d.Summer.Density > 0) {
		errs.Add("summer", "give the temperature of the water in summer", "the water has no viscosity or no density")
	}
	if d.Winter != nil && !(d.Cold.Viscosity > 0 && d.Cold.Density > 0) {
		errs.Add("cold", "give the temperature of the water in winter", "the water has no viscosity or no density")
	}
}
