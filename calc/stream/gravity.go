package stream

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/root"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// FullFlow is what a full pipe carries between two water levels, as a drain from the pond to a filter box. Entry and exit
// belong among the fittings of the run. It is 0 where nothing drives it.
func FullFlow(run *pipe.Run, drop unit.Length, w water.Properties) unit.Flow {
	if !(drop > 0) {
		return 0
	}
	excess := func(q float64) float64 { return run.Loss(unit.Flow(q), w).Metres() - drop.Metres() }
	q, ok := root.Find(excess, 0, enough(excess))
	if !ok {
		return 0
	}
	return unit.Flow(q)
}

// A GravityPipe lies at an even slope and is open to the air.
type GravityPipe struct {
	Bore      unit.Length
	Slope     unit.Ratio
	Roughness unit.Length // of the wall
}

// A PartFull is such a pipe as it runs.
type PartFull struct {
	Depth    unit.Length
	Filling  unit.Ratio // depth by bore
	Velocity unit.Velocity
}

// Fillings of a part-full pipe, by bore.
const (
	mostFilling = 0.9 // above it the flow hardly rises any more and the pipe is apt to run full
	safeFilling = 0.7
)

// solidsSettle is the velocity below which fish waste stays behind in a pipe.
//
// Source: aquaculture practice, from memory.
const solidsSettle = unit.Velocity(0.3)

// flow is what the pipe carries at a depth.
func (p GravityPipe) flow(t *working.Trail, depth unit.Length, w water.Properties) (unit.Flow, unit.Velocity) {
	s := RoundSection.Run(t, RoundInput{p.Bore, depth})
	v := RoughPipe.Run(t, RoughPipeInput{s.Radius, p.Slope, p.Roughness, w.Viscosity})
	return unit.CubicMetresPerSecond(s.Area.SquareMetres() * v.MetresPerSecond()), v
}

// Most is the greatest flow the pipe carries without running full: at a depth of 0.9 bores.
func (p GravityPipe) Most(w water.Properties) unit.Flow {
	q, _ := p.flow(nil, p.Bore*mostFilling, w)
	return q
}

// Run finds how a flow runs in the pipe. Where the pipe cannot carry it part-full the answer is empty and a finding says so.
// Errors name flow_l_per_h, bore_mm, slope and roughness_mm.
func (p GravityPipe) Run(t *working.Trail, q unit.Flow, w water.Properties) (PartFull, []finding.Finding, error) {
	if err := p.check(q); err != nil {
		return PartFull{}, nil, err
	}
	if most := p.Most(w); q > most {
		return PartFull{}, []finding.Finding{tooSmall(q, most)}, nil
	}
	excess := func(y float64) float64 {
		at, _ := p.flow(nil, unit.Metres(y), w)
		return float64(at - q)
	}
	// The law gives less than nothing in the thinnest films, so that there is always a root.
	y, _ := root.Find(excess, p.Bore.Metres()*1e-6, p.Bore.Metres()*mostFilling)
	_, v := p.flow(t, unit.Metres(y), w)
	run := PartFull{Depth: unit.Metres(y), Filling: unit.Ratio(y / p.Bore.Metres()), Velocity: v}
	return run, run.remarks(), nil
}

func (p GravityPipe) check(q unit.Flow) error {
	var errs input.Errors
	if !(q > 0 && q.CubicMetresPerHour() < 1e6) {
		errs.Add("flow_l_per_h", "give the flow through the pipe", "%g L/h", q.LitresPerHour())
	}
	if !(p.Bore.Metres() >= 0.01 && p.Bore.Metres() <= 2) {
		errs.Add("bore_mm", "give the true inside diameter, 10 to 2000 mm", "%g mm", p.Bore.Millimetres())
	}
	if !(p.Slope >= 1e-4 && p.Slope <= 1) {
		errs.Add("slope", "give the fall by the length, 0.0001 to 1; a pipe laid level is a full one between two levels", "%g", p.Slope.Float())
	}
	if !(p.Roughness > 0 && p.Roughness <= p.Bore/20) {
		errs.Add("roughness_mm", "give the height of the unevenness, at most a twentieth of the bore", "%g mm", p.Roughness.Millimetres())
	}
	return errs.Err()
}

func (r PartFull) remarks() []finding.Finding {
	var found []finding.Finding
	if r.Filling > safeFilling {
		found = append(found, finding.Finding{
			Code: "GRAVITY_PIPE_NEARLY_FULL", Severity: finding.Caution, Subject: "gravity pipe",
			Sentence: fmt.Sprintf("The pipe runs %.0f %% full; it may run full one moment and not the next, and surge.", r.Filling.Percent()),
			Value:    finding.Of(r.Filling.Percent(), "%"), Limit: finding.Of(100*safeFilling, "%"),
			Change: "take the next wider pipe or lay it steeper, or keep it full by drowning its end", Source: source.Practice,
		})
	}
	if r.Velocity < solidsSettle {
		found = append(found, finding.Finding{
			Code: "SOLIDS_SETTLE_IN_PIPE", Severity: finding.Note, Subject: "gravity pipe",
			Sentence: fmt.Sprintf("At %.2f m/s the waste of fish stays behind in the pipe.", r.Velocity.MetresPerSecond()),
			Value:    finding.Of(r.Velocity.MetresPerSecond(), "m/s"), Limit: finding.Of(solidsSettle.MetresPerSecond(), "m/s"),
			Change: "lay the pipe steeper, or flush it now and then", Source: source.AquaculturePipes,
		})
	}
	return found
}

func tooSmall(q, most unit.Flow) finding.Finding {
	return finding.Finding{
		Code: "GRAVITY_PIPE_TOO_SMALL", Severity: finding.Stop, Subject: "gravity pipe",
		Sentence: fmt.Sprintf("The pipe carries %s L/h at most without running full, and %s L/h come to it.",
			finding.Whole(most.LitresPerHour()), finding.Whole(q.LitresPerHour())),
		Value: finding.Of(q.LitresPerHour(), "L/h"), Limit: finding.Of(most.LitresPerHour(), "L/h"),
		Change: "take a wider pipe, lay a second one, or lay it steeper", Source: source.ColebrookOpen,
	}
}
