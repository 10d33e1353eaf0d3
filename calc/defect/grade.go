package defect

import (
	"fmt"

	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// measured holds what a pump gave on the stand against its curve, within the tolerance of its acceptance grade.
func (s *sheet) measured(grade pump.Grade) {
	if len(s.curve.Measured) == 0 {
		return
	}
	points := make([]pump.Point, len(s.q))
	for i := range s.q {
		points[i] = pump.Point{Flow: unit.LitresPerHour(s.q[i]), Head: unit.MetresOfWater(s.h[i])}
	}
	curve, err := pump.NewCurve(points, 0)
	if err != nil {
		s.notComparable("no curve can be drawn through the points that it is to be held against")
		return
	}
	nominal := pump.AsMeasured(curve)
	low, high := grade.Tolerance.Low(nominal), grade.Tolerance.High(nominal)
	compared := 0
	for i, m := range s.curve.Measured {
		if !(m.Flow >= 0 && m.Head >= 0) {
			s.notComparable(fmt.Sprintf("point %d of it has no flow or no head", i+1))
			return
		}
		most, ok := high.Head(m.Flow)
		if !ok {
			continue
		}
		compared++
		least, _ := low.Head(m.Flow) // 0 beyond the weakest pump's last point
		if m.Head < least || m.Head > most {
			expected, _ := nominal.Head(m.Flow)
			s.add(OutsideGrade, 0.95, grade.Tolerance.Source, "measure again, or correct the curve",
				fmt.Sprintf("On the stand the pump gave %s at %s, and grade %s wants %s to %s.", metres(m.Head.Metres()),
					litres(m.Flow.LitresPerHour()), grade.Name, metres(least.Metres()), metres(most.Metres())),
				of("head measured", m.Head.Metres(), "m"), of("head of the curve", expected.Metres(), "m"),
				of("least head in the grade", least.Metres(), "m"), of("greatest head in the grade", most.Metres(), "m"))
			return
		}
	}
	if compared == 0 {
		s.notComparable("none of its flows lies on the curve")
	}
}

func (s *sheet) notComparable(why string) {
	s.add(MeasuredNotComparable, 1, source.Definition, "measure at flows that the curve covers", "What was measured cannot be held against the curve: "+why+".")
}
