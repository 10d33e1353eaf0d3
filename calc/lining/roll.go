package lining

import (
	"math"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Material is a kind of sheet.
type Material struct {
	Name    string
	Density unit.Density
	Source  source.Source
}

// The usual materials. Makers fill their compounds differently: a data sheet goes before these.
var (
	Rubber       = Material{Name: "synthetic rubber", Density: 1200, Source: source.LiningDensities}
	Vinyl        = Material{Name: "soft PVC", Density: 1300, Source: source.LiningDensities}
	Polyethylene = Material{Name: "polyethylene", Density: 940, Source: source.LiningDensities}
)

// Cut is how a sheet is made up from a roll.
type Cut struct {
	Strips    int
	Strip     Sheet       // one strip: its length, and the roll's width
	Joins     unit.Length // to weld or glue, all together
	Bought    unit.Area   // off the roll
	OnePiece  bool
	Crosswise bool // strips lie along the shorter side of the sheet
}

// FromRoll cuts a sheet from a roll with the least material, and of two equal ways the one with the shorter joins. It
// serves for lining and underlay. The error is an input.Errors with the paths "sheet", "roll_width_m" and "lap_m".
func FromRoll(t *working.Trail, s Sheet, roll, lap unit.Length) (Cut, error) {
	var errs input.Errors
	if !(s.Width > 0 && s.Length >= s.Width && s.Length.Metres() <= 1e4) {
		errs.Add("sheet", "give the longer side as length", "a sheet of %g x %g m cannot be cut", s.Length.Metres(), s.Width.Metres())
	}
	if !(roll.Metres() >= 0.1 && roll.Metres() <= 100) {
		errs.Add("roll_width_m", "give a width between 0.1 and 100 m", "a roll cannot be %g m wide", roll.Metres())
	}
	if !(lap >= 0 && lap <= roll/2) {
		errs.Add("lap_m", "give a lap of at most half the roll", "the lap cannot be %g m", lap.Metres())
	}
	if len(errs) > 0 {
		return Cut{}, errs
	}
	along, across := cut(t, s.Length, s.Width, roll, lap), cut(t, s.Width, s.Length, roll, lap)
	across.Crosswise = true
	if across.Bought < along.Bought || across.Bought == along.Bought && across.Joins < along.Joins {
		return across, nil
	}
	return along, nil
}

func cut(t *working.Trail, length, width, roll, lap unit.Length) Cut {
	n := StripCount.Run(t, StripInput{Width: width, Roll: roll, Lap: lap})
	return Cut{
		Strips: int(n), OnePiece: n == 1, Strip: Sheet{Length: length, Width: roll},
		Joins:  unit.Length(n-1) * length,
		Bought: unit.SquareMetres(n * roll.Metres() * length.Metres()),
	}
}

// People is how many must carry a load so that none has more than 25 kg, the guideline figure for lifting close to the
// body at waist height; a folded sheet in a garden is neither, so this is the least.
func People(load unit.Mass) int {
	const each = 25 // kg
	return max(1, int(math.Ceil(load.Kilograms()/each)))
}
