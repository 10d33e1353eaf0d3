package pipe

import (
	"math"

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
	Pitch     unit.Length // of a corrugated wall, from rib to rib; 0 where not known
	Roughness unit.Length // of a smooth wall; 0 takes the usual one
	Fittings  []Fitted
	OtherK    float64 // any further loss coefficient on the bore that is known as such

	// The least and the most that bore and roughness may be, for Edges; 0 where nothing is known but the value itself.
	BoreLeast, BoreMost           unit.Length
	RoughnessLeast, RoughnessMost unit.Length
}

// A Run is a length of hose or pipe with its fittings, ready to calculate. It is safe for concurrent
// use and its methods do not allocate.
type Run struct {
	spec      Spec
	bore      float64 // m
	area      float64 // m²
	roughness float64 // ε/D
	slender   float64 // L/D
	ribs      float64 // least friction factor of a corrugated wall; 0 for a smooth one
	fittings  terms
	friction  float64 // factor on the friction of the wall
}

// NewRun prepares a run. Errors name the field of Spec, as length_m, bore_mm or fittings[2].
func NewRun(s Spec) (*Run, error) {
	if err := check(s); err != nil {
		return nil, err
	}
	if s.Roughness == 0 {
		s.Roughness = smoothRoughness
	}
	return build(s), nil
}

func build(s Spec) *Run {
	D := s.Bore.Metres()
	r := &Run{
		spec: s, bore: D, area: math.Pi * D * D / 4,
		roughness: s.Roughness.Metres() / D, slender: s.Length.Metres() / D,
		ribs: s.Wall.ribs(s.Bore, s.Pitch), fittings: terms{fixed: s.OtherK}, friction: 1,
	}
	for _, f := range s.Fittings {
		r.fittings = r.fittings.plus(f.terms(s), float64(f.Count))
	}
	return r
}

// Edges are the run with the least and with the most loss that its wall, bore and roughness may have; the run itself twice
// where nothing is left open.
func (r *Run) Edges() (least, most *Run) {
	unsure := r.spec.Wall.Unsure().Float()
	least = r.edge(r.spec.BoreMost, r.spec.RoughnessLeast, 1-unsure)
	most = r.edge(r.spec.BoreLeast, r.spec.RoughnessMost, 1+unsure)
	return least, most
}

// edge is the run with another bore and roughness, where they are known, and a factor on the friction of its wall.
func (r *Run) edge(bore, roughness unit.Length, friction float64) *Run {
	if bore == 0 && roughness == 0 && friction == 1 {
		return r
	}
	s := r.spec
	if bore != 0 {
		s.Bore = bore
	}
	if roughness != 0 {
		s.Roughness = roughness
	}
	edge := build(s)
	edge.friction = friction
	return edge
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
	f := r.factor(re)
	h := velocityHead(v)
	return unit.Head(r.friction * f * r.slender * h), unit.Head(r.fittings.at(re, f) * h)
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
		fitted.explain(t, r.spec, re, f)
	}
	MinorLoss.Run(t, MinorInput{r.fittings.at(re, f), v})
}

func (r *Run) explainFactor(t *working.Trail, re float64) float64 {
	in := FactorInput{re, unit.Ratio(r.roughness)}
	switch {
	case r.spec.Wall != Corrugated:
		return FrictionFactor.Run(t, in)
	case r.spec.Pitch == 0:
		return CorrugatedFactor.Run(t, in)
	default:
		return RibbedFactor.Run(t, RibbedInput{re, unit.Ratio(r.roughness), r.spec.Bore, r.spec.Pitch})
	}
}

// factor is the friction factor of the wall: of a corrugated one, the larger of its ribs' and a smooth wall's.
func (r *Run) factor(re float64) float64 { return math.Max(frictionFactor(re, r.roughness), r.ribs) }
