package uv

import (
	"cmp"

	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/lamp"
	"example.com/pondwright/calc/working"
)

// Light is the light of 254 nm of all lamps on its way from the plug into the water.
type Light struct {
	New       unit.Power // of new lamps, in air
	Aged      unit.Power // of lamps at this age, in air
	InSleeve  unit.Power // past the clean sleeve
	IntoWater unit.Power // past the film on the sleeve
}

func lightFrom(t *working.Trail, u Unit, c Condition) (l Light) {
	l.New = newOutput(t, u)
	l.Aged = lamp.Aged.Run(t, lamp.AgedInput{NewOutput: l.New, Age: c.Age, EndShare: cmp.Or(c.EndOfLife, lamp.EndOfLifeShare)})
	l.InSleeve = lamp.ThroughSleeve.Run(t, lamp.LossInput{Output: l.Aged, Share: cmp.Or(c.Sleeve, lamp.CleanSleeve)})
	l.IntoWater = lamp.ThroughFouling.Run(t, lamp.LossInput{Output: l.InSleeve, Share: cmp.Or(c.Film, lamp.Fouling)})
	return l
}

// newOutput is the light of all lamps, new and in air: as stated, or a usual share of their power.
func newOutput(t *working.Trail, u Unit) unit.Power {
	if u.Output254 > 0 {
		return lamp.StatedOutput.Run(t, lamp.StatedOutputInput{Count: u.Lamps, Each: u.Output254})
	}
	each := u.WallPower / unit.Power(u.Lamps)
	eta := lamp.Efficiency.Run(t, lamp.EfficiencyInput{
		WallPower: each, Amalgam: u.Kind == Amalgam, BallastLoss: cmp.Or(u.BallastLoss, lamp.BallastLoss),
	})
	return lamp.NewOutput.Run(t, lamp.NewOutputInput{Count: u.Lamps, WallPower: each, Efficiency: eta})
}
