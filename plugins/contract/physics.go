package contract

import (
	"errors"
	"fmt"
	"strings"

	"example.com/pondwright/calc/defect"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// Water at 20 °C, at which pumps are measured, and standard gravity. Used only to refuse what no pump can do, for which the
// least likely density is close enough.
const (
	waterDensity    = 998.2   // kg/m³; IAPWS-95 gives 998.21 at 101.325 kPa, from memory
	standardGravity = 9.80665 // m/s², exact: ISO 80000-3, from memory
)

// checkPump holds a curve to order, to the conservation of energy, and to what the batch check of curves stops at.
func checkPump(p *equipmentv1.Pump) []Problem {
	problems := append(curveOrder(p.GetCurve()), curvePower(p)...)
	if len(problems) > 0 {
		return problems // which name the very fields; the batch check would say the same of the curve
	}
	return curveStops(p)
}

// sureStop is how sure the batch check has to be of a stop for an item to be left out: what it infers from a curve alone, such as a
// unit, may be wrong. What it only has doubts of is loaded; the review of a catalogue tells of it.
const sureStop = 0.9

// curveStops are the defects that make a curve unfit to be calculated with.
func curveStops(p *equipmentv1.Pump) []Problem {
	c := defect.Curve{
		Power: unit.Watts(p.GetPowerW()), LabelFlow: unit.LitresPerHour(p.GetLabelFlowLPerH()), LabelHead: unit.MetresOfWater(p.GetLabelHeadM()),
	}
	for _, point := range p.GetCurve() {
		c.Points = append(c.Points, pump.Point{
			Flow: unit.LitresPerHour(point.GetFlowLPerH()), Head: unit.MetresOfWater(point.GetHeadM()), Power: unit.Watts(point.GetPowerW()),
		})
	}
	var problems []Problem
	for _, d := range defect.Alone(c) {
		if d.Severity == finding.Stop && d.Confidence >= sureStop {
			problems = append(problems, Problem{"pump.curve", d.Sentence + " " + strings.ToUpper(d.Change[:1]) + d.Change[1:]})
		}
	}
	return problems
}

// curveOrder wants points that a pump curve can be drawn through, by the same rule as the engine.
func curveOrder(curve []*equipmentv1.CurvePoint) []Problem {
	points := make([]pump.Point, len(curve))
	for i, c := range curve {
		points[i] = pump.Point{Flow: unit.LitresPerHour(c.GetFlowLPerH()), Head: unit.MetresOfWater(c.GetHeadM())}
	}
	_, err := pump.NewCurve(points, 0)
	var faults input.Errors
	if err != nil && !errors.As(err, &faults) {
		return []Problem{{"pump.curve", err.Error()}}
	}
	var problems []Problem
	for _, f := range faults {
		problems = append(problems, Problem{Field: "pump." + f.Field, Reason: f.Problem + "; " + f.Change})
	}
	return problems
}

// curvePower wants the electrical power at each point, and never less of it than goes into the water.
func curvePower(p *equipmentv1.Pump) []Problem {
	given := 0
	for _, point := range p.GetCurve() {
		if point.PowerW != nil {
			given++
		}
	}
	switch {
	case given == 0 && p.PowerW == nil:
		return []Problem{{"pump.power_w", "no power given: state it for the pump or for every point of its curve, since without it no cost of running could be told"}}
	case given != 0 && given != len(p.GetCurve()):
		return []Problem{{"pump.curve", fmt.Sprintf("power_w is given at %d of %d points: give it at every point, or at none and once for the pump",
			given, len(p.GetCurve()))}}
	}
	var problems []Problem
	for i, point := range p.GetCurve() {
		electrical, field := p.GetPowerW(), "pump.power_w"
		if point.PowerW != nil {
			electrical, field = point.GetPowerW(), fmt.Sprintf("pump.curve[%d].power_w", i)
		}
		if hydraulic := hydraulicPower(point); hydraulic > electrical {
			problems = append(problems, Problem{field, fmt.Sprintf("%g W is less than the %.4g W that %g L/h at %g m puts into the water: check the units of flow, head and power",
				electrical, hydraulic, point.GetFlowLPerH(), point.GetHeadM())})
			if point.PowerW == nil {
				break // one figure for the whole pump: one point that disproves it is enough
			}
		}
	}
	return problems
}

// hydraulicPower is what a pump puts into the water at one point of its curve, in watts.
//
//	P = ρ g Q H
func hydraulicPower(point *equipmentv1.CurvePoint) float64 {
	q := unit.LitresPerHour(point.GetFlowLPerH()).CubicMetresPerSecond()
	return waterDensity * standardGravity * q * point.GetHeadM()
}

// checkLampUnit wants no more light out than power in.
func checkLampUnit(lamp *equipmentv1.LampUnit) []Problem {
	if lamp.Output_254NmW == nil {
		return nil
	}
	if light := lamp.GetOutput_254NmW() * float64(lamp.GetLampCount()); light > lamp.GetPowerW() {
		return []Problem{{"lamp_unit.output_254_nm_w", fmt.Sprintf("%g W from %d lamps is more than the %g W the unit takes: give the output of one lamp at 254 nm, not its electrical power",
			light, lamp.GetLampCount(), lamp.GetPowerW())}}
	}
	return nil
}
