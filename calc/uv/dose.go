package uv

import (
	"slices"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/greenwater"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/mixing"
	"example.com/pondwright/calc/working"
)

// DoseInput is a unit at work.
type DoseInput struct {
	Unit        Unit
	Condition   Condition
	Flow        unit.Flow
	PondVolume  unit.Volume // 0 where only the pass through the unit is asked for
	HoursPerDay unit.Time   // lamp and flow together, up to 24 h; not read without a pond
}

// A Dose is what one pass gives the water, and what the pond gathers in a day. The last three are 0 without a pond.
type Dose struct {
	Light       Light
	Output      unit.Power       // 254 nm into the water
	FluenceRate unit.FluenceRate // average over the chamber, careful
	Residence   unit.Time        // mean time in the chamber
	Mean        unit.Fluence     // of one pass in ideally mixed plug flow: the most that can count
	Fastest     unit.Fluence     // of one pass on the fastest path of laminar flow, in the average light

	Daily          unit.Fluence        // mean dose the water of the whole pond gathers in a day
	PassesPerDay   unit.Ratio          // of the pond's volume
	PowerPerVolume unit.PowerPerVolume // electrical, for the pond's volume

	Findings []finding.Finding
}

// DoseAt works out the dose of a unit at a flow. To try many flows on one unit, call FieldAt once and DoseFrom for each.
func DoseAt(t *working.Trail, in DoseInput) (Dose, error) {
	errs := checkUnit(in.Unit, in.Condition)
	errs = append(errs, checkService(in.Flow, in.PondVolume, in.HoursPerDay)...)
	if err := errs.Err(); err != nil {
		return Dose{}, err
	}
	f, err := FieldAt(t, in.Unit, in.Condition)
	if err != nil {
		return Dose{}, err
	}
	return DoseFrom(t, f, in.Flow, in.PondVolume, in.HoursPerDay)
}

// DoseFrom works out the dose at a flow from the light in the chamber. Pond and hours are those of DoseInput. The
// findings are those of the field.
func DoseFrom(t *working.Trail, f Field, q unit.Flow, pond unit.Volume, hoursPerDay unit.Time) (Dose, error) {
	if err := checkService(q, pond, hoursPerDay).Err(); err != nil {
		return Dose{}, err
	}
	d := Dose{Light: f.Light, Output: f.Output, FluenceRate: f.Careful, Findings: slices.Clip(f.Findings)}
	d.Residence = mixing.Residence.Run(t, mixing.ResidenceInput{Volume: f.Volume, Flow: q})
	d.Mean = mixing.MeanDose.Run(t, mixing.MeanDoseInput{FluenceRate: d.FluenceRate, Residence: d.Residence})
	d.Fastest = mixing.FastestDose.Run(t, mixing.FastestDoseInput{MeanDose: d.Mean, PeakVelocity: f.PeakVelocity})
	if pond == 0 {
		return d, nil
	}
	d.PassesPerDay = greenwater.Passes.Run(t, greenwater.PassesInput{Flow: q, HoursPerDay: hoursPerDay, Volume: pond})
	d.Daily = greenwater.DailyDose.Run(t, greenwater.DailyDoseInput{MeanDose: d.Mean, Passes: d.PassesPerDay})
	d.PowerPerVolume = greenwater.PowerPerVolume.Run(t, greenwater.PowerPerVolumeInput{WallPower: f.WallPower, Volume: pond})
	return d, nil
}

func checkService(q unit.Flow, pond unit.Volume, hoursPerDay unit.Time) (errs input.Errors) {
	const minFlow, maxFlow, maxPond = 1, 1e6, 1e9 // L/h, L/h, L
	between(&errs, "flow_l_per_h", q.LitresPerHour(), minFlow, maxFlow, "L/h")
	if pond == 0 {
		return errs
	}
	between(&errs, "pond_volume_l", pond.Litres(), 1, maxPond, "L")
	between(&errs, "hours_per_day", hoursPerDay.Hours(), 0, 24, "h")
	return errs
}
