package pipe

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Fitted is some fittings of one kind. Only the kinds named beside a field take it.
type Fitted struct {
	Kind     Kind
	Count    int
	From, To unit.Length // HoseTail: bore of the hose and of the tail, 0 to take those of the run; SuddenChange, Reducer: from bore to bore
	Angle    unit.Angle  // Reducer: between opposite walls; 0 takes 60°, which loses the most
	Radius   unit.Length // RoundedEntry: of the edge
	Kv       unit.Flow   // Valve: the flow of water that loses one bar in it
}

// steepCone is the angle of a reducer of which no angle is known: no other loses more either way round, but for a sudden
// change.
const steepCone = 60.0

func (f Fitted) angle() unit.Angle {
	if f.Angle == 0 {
		return unit.Degrees(steepCone)
	}
	return f.Angle
}

// terms are the parts of a loss coefficient on the velocity in the bore of the run: K = perRe/Re + fixed + perFactor f.
type terms struct{ perRe, fixed, perFactor float64 }

func (k terms) at(re, factor float64) float64 { return k.perRe/re + k.fixed + k.perFactor*factor }

func (k terms) plus(o terms, n float64) terms {
	return terms{k.perRe + n*o.perRe, k.fixed + n*o.fixed, k.perFactor + n*o.perFactor}
}

// terms are those of one of the fittings.
func (f Fitted) terms(s Spec) terms {
	row := rows[f.Kind]
	c := row.constants
	switch row.law {
	case byThreeK:
		return terms{perRe: c[0], fixed: threeKTurbulent(c[1], c[2], s.Bore)}
	case byTwoK:
		return terms{perRe: c[0], fixed: twoKTurbulent(c[1], s.Bore)}
	case byLengths:
		return terms{fixed: EquivalentLengths.Eval(EquivalentInput{c[0], s.Bore})}
	case byTail:
		return terms{fixed: f.tail(nil, s)}
	case byRadius:
		return terms{fixed: RoundedEntryLoss.Eval(RoundedInput{f.Radius, s.Bore})}
	case byStep:
		return terms{fixed: f.step(nil, s)}
	case byCone:
		form, friction := f.cone(0).widening()
		if f.From > f.To {
			form, friction = f.cone(0).narrowing()
		}
		scale := referred(min(f.From, f.To), s.Bore)
		return terms{fixed: scale * form, perFactor: scale * friction}
	case byKv:
		return terms{fixed: LossOfKv.Eval(KvInput{f.Kv, s.Bore})}
	default:
		return terms{fixed: c[0]}
	}
}

// explain records how the coefficient of one of the fittings is found. A constant one has no formula.
func (f Fitted) explain(t *working.Trail, s Spec, re, factor float64) {
	row := rows[f.Kind]
	c := row.constants
	switch row.law {
	case byThreeK:
		ThreeK.Run(t, ThreeKInput{c[0], c[1], c[2], re, s.Bore})
	case byTwoK:
		TwoK.Run(t, TwoKInput{c[0], c[1], re, s.Bore})
	case byLengths:
		EquivalentLengths.Run(t, EquivalentInput{c[0], s.Bore})
	case byTail:
		f.tail(t, s)
	case byRadius:
		RoundedEntryLoss.Run(t, RoundedInput{f.Radius, s.Bore})
	case byStep:
		f.step(t, s)
	case byCone:
		formula := &ConicalWidening
		if f.From > f.To {
			formula = &ConicalNarrowing
		}
		ReferToBore.Run(t, ReferInput{formula.Run(t, f.cone(factor)), min(f.From, f.To), s.Bore})
	case byKv:
		LossOfKv.Run(t, KvInput{f.Kv, s.Bore})
	}
}

// tail is the coefficient of a hose tail: of its own two bores, or of those of the run.
func (f Fitted) tail(t *working.Trail, s Spec) float64 {
	if f.From == 0 {
		if s.TailBore == 0 {
			return 0
		}
		return Tail.Run(t, TailInput{s.Bore, min(s.TailBore, s.Bore)})
	}
	k := Tail.Run(t, TailInput{f.From, f.To})
	if f.From == s.Bore {
		return k
	}
	return ReferToBore.Run(t, ReferInput{k, f.From, s.Bore})
}

// step is the coefficient of a sudden change.
func (f Fitted) step(t *working.Trail, s Spec) float64 {
	formula := &SuddenWidening
	if f.From > f.To {
		formula = &SuddenNarrowing
	}
	small := min(f.From, f.To)
	k := formula.Run(t, ChangeInput{max(f.From, f.To), small})
	return ReferToBore.Run(t, ReferInput{k, small, s.Bore})
}

func (f Fitted) cone(factor float64) ConeInput {
	return ConeInput{Large: max(f.From, f.To), Small: min(f.From, f.To), Angle: f.angle(), Factor: factor}
}

// check adds what is wrong with the fitting to errs, under its place in the list.
func (f Fitted) check(errs *input.Errors, place string) {
	if !f.Kind.known() || f.Count < 1 {
		errs.Add(place, "give a kind and a count of at least 1", "%d of kind %d", f.Count, f.Kind)
		return
	}
	law := rows[f.Kind].law
	bores := f.From != 0 || f.To != 0
	switch {
	case law == byTail && bores && !(f.To > 0 && f.To <= f.From && finite(f.From.Metres())):
		errs.Add(place, "give the bore of the hose and the smaller one of the tail", "hose tail of %g mm in %g mm",
			f.To.Millimetres(), f.From.Millimetres())
	case (law == byStep || law == byCone) && !(f.From > 0 && f.To > 0 && f.From != f.To && finite(f.From.Metres()+f.To.Metres())):
		errs.Add(place, "give the bore before and the bore after", "%s from %g to %g mm", f.Kind, f.From.Millimetres(), f.To.Millimetres())
	case law == byCone && f.Angle != 0 && !(f.Angle.Degrees() >= 1 && f.Angle.Degrees() <= 180+1e-9):
		errs.Add(place, "give the angle between opposite walls, from 1 to 180°", "reducer of %g°", f.Angle.Degrees())
	case law == byRadius && !(f.Radius > 0 && finite(f.Radius.Metres())):
		errs.Add(place, "give the radius of the rounded edge", "rounded entry of radius %g mm", f.Radius.Millimetres())
	case law == byKv && !(f.Kv > 0 && finite(f.Kv.CubicMetresPerHour())):
		errs.Add(place, "give the flow coefficient Kv in m³/h at 1 bar", "Kv of %g m³/h", f.Kv.CubicMetresPerHour())
	case bores && law != byTail && law != byStep && law != byCone, f.Angle != 0 && law != byCone, f.Radius != 0 && law != byRadius,
		f.Kv != 0 && law != byKv:
		errs.Add(place, "leave out what this fitting does not take", "%s with a bore, angle, radius or Kv of its own", f.Kind)
	}
}

func finite(x float64) bool { return !math.IsInf(x, 0) && !math.IsNaN(x) }

func fittingField(i int) string { return fmt.Sprintf("fittings[%d]", i) }
