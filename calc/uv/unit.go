// Package uv answers what a UV lamp unit does to the water that runs through it: light, time and dose, today and at the
// end of the lamp's life.
//
// The light of 254 nm is followed from the plug into the water (package lamp), spread over the chamber (package field),
// met by the flow (package mixing) and set against the whole pond (package greenwater). Published doses stand in
// package kill, usual waters in clarity, the danger to people in exposure. No dose of a single pass is called a kill.
package uv

import (
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// LampKind is how the lamp makes its light.
type LampKind int

// The two kinds of lamp that give nearly all their light at 254 nm.
const (
	LowPressure LampKind = iota + 1 // low-pressure mercury
	Amalgam                         // low-pressure, high-output amalgam
)

// A Unit is a lamp unit as a catalogue describes it: lamps in sleeves along a round chamber that water runs through.
type Unit struct {
	WallPower       unit.Power // electrical, of the whole unit with ballast
	Lamps           int
	Kind            LampKind
	Output254       unit.Power // of one new lamp at 254 nm, in air; 0 is not stated, and a usual share of the power is taken
	ArcLength       unit.Length
	SleeveDiameter  unit.Length
	ChamberDiameter unit.Length
	ChamberLength   unit.Length // wetted
	BallastLoss     unit.Ratio  // share of the wall power; 0 is not stated, and that of an electronic one is taken
}

// A Condition is the state of water and lamp at one time.
type Condition struct {
	Transmittance unit.Ratio // share of light of 254 nm that passes 10 mm of the water, 0.01 to 1
	Age           unit.Ratio // share of the lamp's rated life used, 0 new to 1

	// Shares of light that somebody measured; 0 is not measured, and a usual one is taken.
	Sleeve    unit.Ratio // passes the clean sleeve
	Film      unit.Ratio // passes the film on the sleeve
	EndOfLife unit.Ratio // is left at the end of the rated life
}

// Bounds within which the quadrature of package field is tested.
const (
	maxLamps         = 20
	maxPower         = 5000.0 // W
	minArc, maxArc   = 0.02, 2.0
	minLength        = 0.02
	maxLength        = 3.0
	minSleeve        = 0.005
	maxChamber       = 1.0
	minGap           = 0.001
	minTransmittance = 0.01
)

// check says what is wrong with the unit, fields by their names in a catalogue.
func (u Unit) check() (errs input.Errors) {
	between(&errs, "power_w", u.WallPower.Watts(), 0, maxPower, "W")
	if u.Lamps < 1 || u.Lamps > maxLamps {
		errs.Add("lamp_count", "count the lamps in the chamber", "%d lamps, not 1 to %d", u.Lamps, maxLamps)
	}
	if u.Kind != LowPressure && u.Kind != Amalgam {
		errs.Add("lamp", "say low pressure or amalgam", "no such kind of lamp: %d", int(u.Kind))
	}
	between(&errs, "arc_length_mm", u.ArcLength.Millimetres(), 1000*minArc, 1000*maxArc, "mm")
	between(&errs, "sleeve_diameter_mm", u.SleeveDiameter.Millimetres(), 1000*minSleeve, 1000*maxChamber, "mm")
	between(&errs, "chamber_diameter_mm", u.ChamberDiameter.Millimetres(), 1000*minSleeve, 1000*maxChamber, "mm")
	between(&errs, "chamber_length_mm", u.ChamberLength.Millimetres(), 1000*minLength, 1000*maxLength, "mm")
	if gap := (u.ChamberDiameter - u.SleeveDiameter) / 2; !(gap.Metres() >= minGap) {
		errs.Add("chamber_diameter_mm", "give the inner diameter of the chamber and the outer diameter of the sleeve",
			"leaves a gap of %.3g mm for the water between sleeve and wall", gap.Millimetres())
	}
	u.checkOutput(&errs)
	return errs
}

func (u Unit) checkOutput(errs *input.Errors) {
	out := u.Output254.Watts()
	switch total := float64(u.Lamps) * out; {
	case !(out >= 0 && out <= maxPower):
		errs.Add("output_254_nm_w", "give the output of one lamp, or leave it out", "%g W is no output", out)
	case total > 0 && total >= u.WallPower.Watts():
		errs.Add("output_254_nm_w", "give the output at 254 nm of one lamp, not its electrical power",
			"the lamps would give %.3g W of light from %.3g W", total, u.WallPower.Watts())
	}
}

// check says what is wrong with the state of water and lamp, fields by their names in a question.
func (c Condition) check() (errs input.Errors) {
	between(&errs, "water.uv_transmittance_percent", c.Transmittance.Percent(), 100*minTransmittance, 100, "%")
	if !(c.Age >= 0 && c.Age <= 1) {
		errs.Add("condition.used_life_percent", "give the share of the rated life, or the age at its end: a lamp past its life has no stated output",
			"%g is not between 0 and 1", c.Age.Float())
	}
	share(&errs, "condition.sleeve_transmittance_percent", c.Sleeve)
	share(&errs, "condition.film_transmittance_percent", c.Film)
	share(&errs, "condition.end_of_life_output_percent", c.EndOfLife)
	return errs
}

// share notes a share outside 0..1; 0 is one not stated.
func share(errs *input.Errors, field string, s unit.Ratio) {
	if !(s >= 0 && s <= 1) {
		errs.Add(field, "give it in per cent, or leave it out", "%g %% is not between 0 and 100 %%", s.Percent())
	}
}

// between notes a value outside low..high; a low of 0 is itself outside. NaN is outside.
func between(errs *input.Errors, field string, v, low, high float64, symbol string) {
	if v >= low && v <= high && v > 0 {
		return
	}
	errs.Add(field, "check value and unit", "%g %s is not between %g and %g %s", v, symbol, low, high, symbol)
}
