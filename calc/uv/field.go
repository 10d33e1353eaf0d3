package uv

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/field"
	"example.com/pondwright/calc/uv/mixing"
	"example.com/pondwright/calc/working"
)

// A Field is the light in a unit's chamber in one condition. It does not depend on the flow: work it out once, then ask
// DoseFrom for as many flows as wanted.
type Field struct {
	Light        Light
	Output       unit.Power // 254 nm into the water, all lamps
	Absorption   unit.AbsorptionCoefficient
	Chamber      field.Chamber
	Volume       unit.Volume      // water in the chamber
	Radial       unit.FluenceRate // average of the radial model
	LineSource   unit.FluenceRate // average of line source integration
	Careful      unit.FluenceRate // average of the lesser at every point
	PeakVelocity unit.Ratio       // of laminar flow, over the mean
	WallPower    unit.Power
	Findings     []finding.Finding

	lamps int
}

// FieldAt works out the light in the chamber. Several lamps are taken as one line on the axis that gives their summed
// light, in the one sleeve described; a finding says so.
func FieldAt(t *working.Trail, u Unit, c Condition) (Field, error) {
	if err := checkUnit(u, c).Err(); err != nil {
		return Field{}, err
	}
	light := lightFrom(t, u, c)
	chamber := field.Chamber{
		Output: light.IntoWater, ArcLength: u.ArcLength, ChamberLength: u.ChamberLength,
		SleeveRadius: u.SleeveDiameter / 2, ChamberRadius: u.ChamberDiameter / 2,
		Absorption: field.Absorption.Run(t, field.AbsorptionInput{
			Transmittance: c.Transmittance, Path: unit.Millimetres(10),
		}),
	}
	f := Field{
		Light: light, Output: chamber.Output, Absorption: chamber.Absorption, Chamber: chamber, WallPower: u.WallPower,
		Volume: field.WaterVolume.Run(t, field.WaterVolumeInput{
			ChamberLength: chamber.ChamberLength, SleeveRadius: chamber.SleeveRadius, ChamberRadius: chamber.ChamberRadius,
		}),
		Radial:     field.RadialAverage.Run(t, chamber),
		LineSource: field.LineSourceAverage.Run(t, chamber),
		Careful:    field.CarefulAverage.Run(t, chamber),
		PeakVelocity: mixing.PeakVelocity.Run(t, mixing.AnnulusInput{
			SleeveRadius: chamber.SleeveRadius, ChamberRadius: chamber.ChamberRadius,
		}),
		Findings: assumptions(u, c), lamps: u.Lamps,
	}
	if u.Lamps > 1 {
		f.Findings = append(f.Findings, f.lampsOnAxis())
	}
	return f, nil
}

func checkUnit(u Unit, c Condition) (errs input.Errors) {
	errs.AddUnder("lamp_unit", u.check())
	share(&errs, "condition.ballast_loss_percent", u.BallastLoss)
	return append(errs, c.check()...)
}
