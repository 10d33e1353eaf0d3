package ripening

import (
	"errors"
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/ode"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A LoadStep is the ammonia that comes from a day on, until the next step.
type LoadStep struct {
	From unit.Time
	TAN  unit.MassRate // as nitrogen
}

// A State is what is in the water and on the media, nitrogen as nitrogen, bacteria dry and by pond volume.
type State struct{ TAN, Nitrite, Nitrate, AmmoniaOxidisers, NitriteOxidisers unit.Concentration }

// NewFilter is what a filter starts with that nobody has seeded: the few bacteria that are everywhere. It is an
// assumption; see source.FirstBacteria.
func NewFilter() State {
	return State{AmmoniaOxidisers: unit.MilligramsPerLitre(0.002), NitriteOxidisers: unit.MilligramsPerLitre(0.001)}
}

// SeededFilter is what a filter starts with that was given some media from a ripe one. It is an assumption, as NewFilter.
func SeededFilter() State {
	return State{AmmoniaOxidisers: unit.MilligramsPerLitre(0.1), NitriteOxidisers: unit.MilligramsPerLitre(0.04)}
}

// Input is a pond, its water and how it is stocked.
type Input struct {
	Pond        unit.Volume
	Temperature unit.Temperature
	Year        []unit.Temperature // of each day from the start, where the water changes; Temperature is then the warmest that limits are for
	PH          float64
	Oxygen      unit.Concentration
	Load        []LoadStep // in order, the first from the start
	Exchange    unit.PerTime
	TapTAN      unit.Concentration // as nitrogen; chloramine brings some
	TapNitrate  unit.Concentration // as nitrogen
	Start       State
	NoFish      bool               // whether the ammonia is put in by hand, so that a peak harms no fish
	Room        unit.Concentration // bacteria the media have room for, by pond volume; 0 is no limit
	Until       unit.Time
	Limits      Limits      // below which the filter counts as ripe; either, where 0, takes RipeLimits
	Kinetics    Kinetics    // nothing takes NitrifierKinetics
	Stop        func() bool // asked after each step; true ends the run with ErrStopped. Nil never does.
}

// UsualOxygen is that of a pond kept in air, a little below saturation in summer. It is an assumption.
const UsualOxygen = unit.Concentration(7e-3)

// UsualSpan is how long a new filter is followed where nobody says otherwise.
const UsualSpan = unit.Time(60 * 86400)

// ErrStopped means that Input.Stop ended the run.
var ErrStopped = errors.New("ripening: stopped")

// A Peak is a highest value and when it came.
type Peak struct {
	Value unit.Concentration
	At    unit.Time
}

// A Result is one run.
type Result struct {
	TAN, Nitrite Peak
	Fed          bool      // whether there was any ammonia: without it nothing ripens
	Ripe         bool      // whether both stayed below the limit in the end, in a filter that was fed
	RipeAt       unit.Time // from when on
	Days         []State   // at the start and after each whole day
	End          State
	Balance      unit.Ratio // nitrogen in less nitrogen out less nitrogen stored, by nitrogen in: how well the run closes
	Findings     []finding.Finding
}

var tolerance = ode.Tolerance{Relative: 1e-9, Absolute: 1e-11}

// Run follows the pond. Problems of the input are in err, an input.Errors.
func Run(t *working.Trail, in Input) (Result, error) {
	if err := in.Check(); err != nil {
		return Result{}, err
	}
	in.Limits = in.Limits.Or(RipeLimits(in.Temperature, in.PH))
	if in.Kinetics == (Kinetics{}) {
		in.Kinetics = NitrifierKinetics.Run(t, KineticsInput{Temperature: in.Temperature})
	}
	pH := PHFactor.Run(t, PHFactorInput{PH: in.PH})
	result, err := follow(in, pH)
	if err != nil {
		return Result{}, err
	}
	result.Findings = verdicts(in, result)
	return result, nil
}

// follow integrates load step by load step, since a jump inside a step would spoil its error estimate; where the water
// changes from day to day, day by day.
func follow(in Input, pH unit.Ratio) (Result, error) {
	m := newModel(in, in.Kinetics, pH)
	y := in.Start.vector()
	w := newWatch(y, in)
	var brought float64
	for i, step := range in.Load {
		from, to := step.From.Days(), in.Until.Days()
		if i+1 < len(in.Load) {
			to = min(to, in.Load[i+1].From.Days())
		}
		if from >= to {
			break
		}
		m.load = step.TAN.GramsPerDay() / in.Pond.CubicMetres()
		if err := in.stretch(m, pH, y, from, to, w); err != nil {
			return Result{}, tooFast(err, in.Until)
		}
		brought += (m.load + m.exchange*(m.tapTAN+m.tapNitrate)) * (to - from)
	}
	return w.result(y, in, brought), nil
}

// stretch integrates from one day to another, which may lie within a day, under one load.
func (in Input) stretch(m model, pH unit.Ratio, y []float64, from, to float64, w *watch) error {
	if len(in.Year) == 0 {
		return ode.Solve(m.rates, y, from, to, tolerance, w.see)
	}
	for from < to {
		day := min(int(from), len(in.Year)-1)
		until := min(to, math.Floor(from)+1)
		warm := newModel(in, NitrifierKinetics.Eval(KineticsInput{Temperature: in.Year[day]}), pH)
		warm.load = m.load
		if err := ode.Solve(warm.rates, y, from, until, tolerance, w.see); err != nil {
			return err
		}
		from = until
	}
	return nil
}

// tooFast says to the caller what a system that is far faster than its run means in a pond.
func tooFast(err error, until unit.Time) error {
	if !errors.Is(err, ode.ErrTooManySteps) && !errors.Is(err, ode.ErrStepTooSmall) {
		return fmt.Errorf("ripening: %w", err)
	}
	return input.Error{
		Field: "days", Problem: fmt.Sprintf("so much happens in this water that %g days cannot be followed", until.Days()),
		Change: "follow fewer days, or give less ammonia",
	}
}

func (s State) vector() []float64 {
	y := make([]float64, components)
	y[tan], y[nitrite], y[nitrate] = s.TAN.MilligramsPerLitre(), s.Nitrite.MilligramsPerLitre(), s.Nitrate.MilligramsPerLitre()
	y[oxidA], y[oxidB] = s.AmmoniaOxidisers.MilligramsPerLitre(), s.NitriteOxidisers.MilligramsPerLitre()
	return y
}

func state(at func(i int) float64) State {
	c := func(i int) unit.Concentration { return unit.MilligramsPerLitre(max(0, at(i))) }
	return State{TAN: c(tan), Nitrite: c(nitrite), Nitrate: c(nitrate), AmmoniaOxidisers: c(oxidA), NitriteOxidisers: c(oxidB)}
}
