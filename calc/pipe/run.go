package pipe

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// A Spec says what a run of hose or pipe is made of.
type Spec struct {
	Length    unit.Length
	Bore      unit.Length // true inside diameter
	TailBore  unit.Length // narrowest way through the tails; 0 where hose tails do not narrow it
	Wall      Wall
	Roughness unit.Length // of a smooth wall; 0 takes the usual one
	Fittings  []Fitted
	OtherK    float64 // any further loss coefficient on the bore that is known as such
}

// Fitted is some fittings of one kind.
type Fitted struct {
	Kind  Kind
	Count int
}

// A Run is a length of hose or pipe with its fittings, ready to calculate. It is safe for concurrent
// use and its methods do not allocate.
type Run struct {
	spec      Spec
	bore      float64 // m
	area      float64 // m²
	roughness float64 // ε/D
	slender   float64 // L/D
	k1        float64 // part of K that goes with 1/Re
	kTurb     float64 // part of K that does not
	friction  float64 // factor on the friction of the wall
}

// NewRun prepares a run. Errors name the field of Spec: length_m, bore_mm, tail_bore_mm, roughness_mm, other_k, fittings[i].
func NewRun(s Spec) (*Run, error) {
	if err := check(s); err != nil {
		return nil, err
	}
	if s.Roughness == 0 {
		s.Roughness = smoothRoughness
	}
	D := s.Bore.Metres()
	r := &Run{
		spec: s, bore: D, area: math.Pi * D * D / 4,
		roughness: s.Roughness.Metres() / D, slender: s.Length.Metres() / D,
		kTurb: s.OtherK, friction: 1,
	}
	for _, f := range s.Fittings {
		n := float64(f.Count)
		if f.Kind == HoseTail {
			r.kTurb += n * r.tail()
			continue
		}
		row := threeK[f.Kind]
		r.k1 += n * row.k1
		r.kTurb += n * threeKTurbulent(row.ki, row.kd, s.Bore)
	}
	return r, nil
}

func check(s Spec) error {
	var errs input.Errors
	if !(s.Length > 0) || math.IsInf(s.Length.Metres(), 0) {
		errs.Add("length_m", "give the length of hose to lay", "length is %g m", s.Length.Metres())
	}
	if !(s.Bore > 0) || math.IsInf(s.Bore.Metres(), 0) {
		errs.Add("bore_mm", "give the true inside diameter", "bore is %g mm", s.Bore.Millimetres())
	}
	if !(s.TailBore >= 0 && s.TailBore <= s.Bore) {
		errs.Add("tail_bore_mm", "give the narrowest way through the tail", "tail of %g mm in a hose of %g mm",
			s.TailBore.Millimetres(), s.Bore.Millimetres())
	}
	if !(s.Roughness >= 0 && s.Roughness <= s.Bore/20) {
		errs.Add("roughness_mm", "give the height of the unevenness, at most a twentieth of the bore", "roughness is %g mm",
			s.Roughness.Millimetres())
	}
	if !(s.OtherK >= 0) || math.IsInf(s.OtherK, 0) {
		errs.Add("other_k", "give a loss coefficient of 0 or more", "coefficient is %g", s.OtherK)
	}
	for i, f := range s.Fittings {
		if _, ok := threeK[f.Kind]; !ok && f.Kind != HoseTail || f.Count < 1 {
			errs.Add(fmt.Sprintf("fittings[%d]", i), "give a kind and a count of at least 1", "%d of kind %d", f.Count, f.Kind)
		}
	}
	return errs.Err()
}

// Edges are the run with the least and with the most friction that its wall may have; the run itself twice where the wall
// leaves nothing open.
func (r *Run) Edges() (least, most *Run) {
	unsure := r.spec.Wall.Unsure().Float()
	if unsure == 0 {
		return r, r
	}
	smooth, rough := *r, *r
	smooth.friction, rough.friction = 1-unsure, 1+unsure
	return &smooth, &rough
}

// Spec is what the run is made of.
func (r *Run) Spec() Spec { return r.spec }

// Velocity is the mean velocity in the bore.
func (r *Run) Velocity(q unit.Flow) unit.Velocity {
	return unit.Velocity(q.CubicMetresPerSecond() / r.area)
}

// Loss is the head lost in hose and fittings. It rises strictly with flow.
func (r *Run) Loss(q unit.Flow, w water.Properties) unit.Head {
	hose, fittings := r.Losses(q, w)
	return hose + fittings
}

// Losses are the head lost to the wall of the hose and in fittings.
func (r *Run) Losses(q unit.Flow, w water.Properties) (hose, fittings unit.Head) {
	if q <= 0 {
		return 0, 0
	}
	v := q.CubicMetresPerSecond() / r.area
	re := v * r.bore / w.Viscosity.SquareMetresPerSecond()
	f := r.spec.Wall.factor(re, r.roughness)
	h := velocityHead(v)
	return unit.Head(r.friction * f * r.slender * h), unit.Head(r.coefficient(re) * h)
}

// Explain records how Losses are found at one flow.
func (r *Run) Explain(t *working.Trail, q unit.Flow, w water.Properties) {
	if t == nil || q <= 0 {
		return
	}
	v := Velocity.Run(t, VelocityInput{q, r.spec.Bore})
	re := Reynolds.Run(t, ReynoldsInput{v, r.spec.Bore, w.Viscosity})
	f := r.explainFactor(t, re)
	FrictionLoss.Run(t, FrictionInput{f, r.spec.Length, r.spec.Bore, v})
	for _, fitted := range r.spec.Fittings {
		if row, ok := threeK[fitted.Kind]; ok {
			ThreeK.Run(t, ThreeKInput{row.k1, row.ki, row.kd, re, r.spec.Bore})
		} else if r.spec.TailBore > 0 {
			Tail.Run(t, TailInput{r.spec.Bore, r.spec.TailBore})
		}
	}
	MinorLoss.Run(t, MinorInput{r.coefficient(re), v})
}

func (r *Run) explainFactor(t *working.Trail, re float64) float64 {
	in := FactorInput{re, unit.Ratio(r.roughness)}
	if r.spec.Wall == Corrugated {
		return CorrugatedFactor.Run(t, in)
	}
	return FrictionFactor.Run(t, in)
}

func (r *Run) coefficient(re float64) float64 { return r.k1/re + r.kTurb }

func (r *Run) tail() float64 {
	if r.spec.TailBore == 0 {
		return 0
	}
	return Tail.Eval(TailInput{r.spec.Bore, r.spec.TailBore})
}
