package defect

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/source"
)

// Bounds on efficiency. The average small circulator of Regulation (EU) 622/2012 is the published anchor; the best on sale take
// about a quarter less power for the same work, hence its efficiency times 1.35 (from memory). Pumps below some 8 W of hydraulic
// power are given 36 %, which permanent-magnet motors come near; no garden pump comes to 76 % from the mains. Power at
// the shaft lacks the motor's loss, taken as a quarter.
const (
	overReference  = 1.35
	smallReach     = 0.36
	bestReach      = 0.76
	bestShaftReach = 0.89
	usualMotor     = 0.75
	underReference = 0.045 // of the average circulator's: less than any pump that turns gives, common practice
)

// reach is the greatest efficiency that pumps of a hydraulic power have reached.
func (s *sheet) reach(hydraulic float64) float64 {
	mains := min(bestReach, max(smallReach, overReference*referenceEfficiency(hydraulic)))
	if s.curve.AtShaft {
		return min(bestShaftReach, mains/usualMotor)
	}
	return mains
}

// energy holds the curve to the conservation of energy, and to what pumps of its size have reached.
func (s *sheet) energy() {
	if s.p == nil || !s.shape.known {
		return
	}
	at1, best := s.mostEfficient()
	hydraulic := s.q[at1] * s.h[at1] * s.perUnit
	taken := "from the mains"
	if s.curve.AtShaft {
		taken = "at the shaft"
	}
	evidence := []Evidence{
		at(s.index[at1], "power put into the water", hydraulic, "W"), at(s.index[at1], "power taken", s.p[at1], "W"),
		at(s.index[at1], "efficiency", 100*best, "%"),
	}
	switch reach := s.reach(hydraulic); {
	case best > 1:
		s.add(PowerBelowHydraulic, 0.99, source.PotentialEnergy, "look up the units of flow, head and power",
			fmt.Sprintf("At %s and %s the pump puts %s into the water and takes %s %s: no pump can.", litres(s.q[at1]), metres(s.h[at1]),
				watts(hydraulic), watts(s.p[at1]), taken), evidence...)
	case best > reach:
		s.add(EfficiencyTooHigh, min(0.95, 0.7+(best/reach-1)), source.CirculatorReference, "look up the units of flow, head and power",
			fmt.Sprintf("At %s the efficiency would be %.0f %% %s; pumps that put %s into the water have reached some %.0f %%.",
				litres(s.q[at1]), 100*best, taken, watts(hydraulic), 100*reach), append(evidence, of("efficiency reached", 100*reach, "%"))...)
	case s.shape.merit < math.Log(underReference):
		s.add(EfficiencyTooLow, 0.9, source.Practice, "look up the units of flow, head and power",
			fmt.Sprintf("At best the pump puts %s into the water and takes %s %s: %.2g %%, which is too little for a pump.",
				watts(hydraulic), watts(s.p[at1]), taken, 100*best), evidence...)
	}
}

func (s *sheet) mostEfficient() (point int, efficiency float64) {
	for i := range s.q {
		if e := s.q[i] * s.h[i] * s.perUnit / s.p[i]; e > efficiency {
			point, efficiency = i, e
		}
	}
	return point, efficiency
}

// fallAllowed is how far power may fall from no flow to free flow. By the usual bands of specific speed it rises in radial
// wheels, is nearly level in those between, and falls in mixed and axial ones; ok is false where it may fall by any amount.
func (s *sheet) fallAllowed() (share float64, ok bool) {
	switch n := math.Exp(s.shape.speed); {
	case n < 75:
		return 0.05, true
	case n < 130:
		return 0.12, true
	}
	return 0, false
}

// falling finds power that falls from no flow to the best point, and on to the last, though the wheel, by its specific speed, is a
// radial one, whose power rises. In mixed and axial wheels it may fall.
func (s *sheet) falling() {
	b := s.shape.best
	if s.p == nil || b == 0 || s.q[0] > 0.1*s.last || s.p[b] > 0.99*s.p[0] {
		return
	}
	fall := 1 - s.p[len(s.p)-1]/s.p[0]
	if allowed, ok := s.fallAllowed(); !ok || fall < allowed {
		return
	}
	s.add(PowerFalls, min(0.95, 0.7+fall), source.Practice, "look up whether the powers stand in the reverse order",
		fmt.Sprintf("Power falls from %s at %s to %s at %s; in a pump of this kind it rises with flow.", watts(s.p[0]), litres(s.q[0]), watts(s.p[b]), litres(s.q[b])),
		at(s.index[0], "power at the first point", s.p[0], "W"), at(s.index[b], "power at the best point", s.p[b], "W"),
		of("specific speed at 2,900 1/min", math.Exp(s.shape.speed), "1"))
}
