package uv

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/field"
	"example.com/pondwright/calc/uv/lamp"
	"example.com/pondwright/calc/uv/mixing"
	"example.com/pondwright/calc/working"
)

// A Field is the light in a unit's chamber in one condition. It does not depend on the flow: work it out once, then ask
// DoseFrom for as many flows as wanted.
type Field struct {
	Output       unit.Power // 254 nm into the water, all lamps
	Absorption   unit.AbsorptionCoefficient
	Volume       unit.Volume      // water in the chamber
	Radial       unit.FluenceRate // average of the radial model
	LineSource   unit.FluenceRate // average of line source integration
	Careful      unit.FluenceRate // average of the lesser at every point
	PeakVelocity unit.Ratio       // of laminar flow, over the mean
	WallPower    unit.Power
	Findings     []finding.Finding
}

// FieldAt works out the light in the chamber. Several lamps are taken as one line on the axis that gives their summed
// light, in the one sleeve described; a finding says so.
func FieldAt(t *working.Trail, u Unit, c Condition) (Field, error) {
	if err := checkUnit(u, c).Err(); err != nil {
		return Field{}, err
	}
	chamber := field.Chamber{
		Output: output(t, u, c.Age), ArcLength: u.ArcLength, ChamberLength: u.ChamberLength,
		SleeveRadius: u.SleeveDiameter / 2, ChamberRadius: u.ChamberDiameter / 2,
		Absorption: field.Absorption.Run(t, field.AbsorptionInput{
			Transmittance: c.Transmittance, Path: unit.Millimetres(10),
		}),
	}
	f := Field{
		Output: chamber.Output, Absorption: chamber.Absorption, WallPower: u.WallPower,
		Volume: field.WaterVolume.Run(t, field.WaterVolumeInput{
			ChamberLength: chamber.ChamberLength, SleeveRadius: chamber.SleeveRadius, ChamberRadius: chamber.ChamberRadius,
		}),
		Radial:     field.RadialAverage.Run(t, chamber),
		LineSource: field.LineSourceAverage.Run(t, chamber),
		Careful:    field.CarefulAverage.Run(t, chamber),
		PeakVelocity: mixing.PeakVelocity.Run(t, mixing.AnnulusInput{
			SleeveRadius: chamber.SleeveRadius, ChamberRadius: chamber.ChamberRadius,
		}),
		Findings: assumptions(u, c),
	}
	if u.Lamps > 1 {
		f.Findings = append(f.Findings, lampsOnAxis(chamber, u.Lamps, f.Careful))
	}
	return f, nil
}

// output follows the light from the plug into the water.
func output(t *working.Trail, u Unit, age unit.Ratio) unit.Power {
	p := lamp.Aged.Run(t, lamp.AgedInput{NewOutput: newOutput(t, u), Age: age, EndShare: lamp.EndOfLifeShare})
	p = lamp.ThroughSleeve.Run(t, lamp.LossInput{Output: p, Share: lamp.CleanSleeve})
	return lamp.ThroughFouling.Run(t, lamp.LossInput{Output: p, Share: lamp.Fouling})
}

// newOutput is the light of all lamps, new and in air: as stated, or a usual share of their power.
func newOutput(t *working.Trail, u Unit) unit.Power {
	if u.Output254 > 0 {
		return lamp.StatedOutput.Run(t, lamp.StatedOutputInput{Count: u.Lamps, Each: u.Output254})
	}
	each := u.WallPower / unit.Power(u.Lamps)
	eta := lamp.Efficiency.Run(t, lamp.EfficiencyInput{WallPower: each, Amalgam: u.Kind == Amalgam})
	return lamp.NewOutput.Run(t, lamp.NewOutputInput{Count: u.Lamps, WallPower: each, Efficiency: eta})
}

func checkUnit(u Unit, c Condition) (errs input.Errors) {
	errs.AddUnder("unit", u.check())
	errs.AddUnder("condition", c.check())
	return errs
}
