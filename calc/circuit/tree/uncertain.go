package tree

import (
	"math"

	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
)

// uncertain lists the inputs with what half their width does to heads.
func (t *settled) uncertain(tolerance pump.Tolerance, sure Sureness) []uncertain {
	var all []uncertain
	for _, e := range t.net.elements {
		q := t.part[e.index]
		if q == 0 {
			continue
		}
		switch p := e.part.(type) {
		case Pump:
			all = append(all, lossInput("pump's tolerance", e, pumpMoved(p.Pump, unit.Flow(q), tolerance)))
		case Hose:
			all = append(all, t.hoseInputs(e, q, sure)...)
		case Device, Valve, Check:
			how := sure.device(e.name)
			all = append(all, lossInput("head lost, "+how.String(), e, deviceMargin[how].part*t.loss[e.index]))
		}
	}
	return append(all, t.levelInputs(sure)...)
}

func lossInput(what string, e *element, moved float64) uncertain {
	return uncertain{what, e.name, nudge{loss: map[int]float64{e.index: moved}}}
}

// pumpMoved is how the head of a pump moves, as a loss, when its flow and head are both at the strong end of their
// tolerance: H_k(Q) = k_H H(Q/k_Q).
func pumpMoved(p pump.Pump, q unit.Flow, tolerance pump.Tolerance) float64 {
	h, _ := p.Head(q)
	return -h.Metres()*tolerance.Head.Float() + float64(q)*p.Slope(q)*tolerance.Flow.Float()
}

func (t *settled) hoseInputs(e *element, q float64, sure Sureness) []uncertain {
	spec, line := e.run.Spec(), t.lines[e.index]
	x, sense := math.Abs(q), math.Copysign(1, q)
	hose, fittings := e.run.Losses(unit.Flow(x), t.water)
	wall := sense * hose.Metres()
	f := hose.Metres() / (line.friction * x * x)
	withRe, withRoughness := exponents(f, line.reynolds*x, line.roughness)
	length := sure.Lengths[e.name].known()
	bore := sure.bore(e.name)
	inputs := []uncertain{
		lossInput("length of hose, "+length.String(), e, wall*lengthMargin[length].of(spec.Length.Metres())/spec.Length.Metres()),
		lossInput("roughness of hose", e, wall*withRoughness*roughnessWidth(spec)),
		lossInput("loss coefficients of fittings", e, sense*fittings.Metres()*fittingMargin),
	}
	if unsure := spec.Wall.Unsure().Float(); unsure > 0 {
		inputs = append(inputs, lossInput("friction of corrugated hose", e, wall*unsure))
	}
	relative := boreWidth(spec, bore) / spec.Bore.Metres()
	// The friction loss goes with f(Re, ε/D) Q²/D⁵, and Re with 1/D at one flow.
	moved := wall*(-5-withRe-withRoughness) + sense*fittingsByBore(e.run, unit.Flow(x), t)
	return append(inputs, lossInput("bore of hose, "+bore.String(), e, moved*relative))
}

// boreWidth is half the width of a bore, in m: that of the limits the hose was made to, or by how it was come by.
func boreWidth(s pipe.Spec, how How) float64 {
	if s.BoreLeast > 0 && s.BoreMost > s.BoreLeast && how == Label {
		return (s.BoreMost - s.BoreLeast).Metres() / 2
	}
	return boreMargin[how].of(s.Bore.Metres())
}

// roughnessWidth is half the width of the logarithm of a roughness.
func roughnessWidth(s pipe.Spec) float64 {
	if s.RoughnessLeast > 0 && s.RoughnessMost > s.RoughnessLeast {
		return math.Log(float64(s.RoughnessMost/s.RoughnessLeast)) / 2
	}
	return roughnessMargin
}

// fittingsByBore is how the loss in fittings goes with the logarithm of the bore at one flow. Loss coefficients go with
// the bore by tables that only calc/pipe knows, so this part is a central difference, good to nine digits.
func fittingsByBore(r *pipe.Run, q unit.Flow, t *settled) float64 {
	const step = 1e-5
	at := func(by float64) (float64, bool) {
		spec := r.Spec()
		spec.Bore *= unit.Length(by)
		run, err := pipe.NewRun(spec)
		if err != nil {
			return 0, false
		}
		_, h := run.Losses(q, t.water)
		return h.Metres(), true
	}
	less, ok := at(1 - step)
	more, also := at(1 + step)
	if !ok || !also { // a tail as wide as the hose leaves no narrower hose
		_, h := r.Losses(q, t.water)
		return -4 * h.Metres()
	}
	return (more - less) / (2 * step)
}

// levelInputs are the heights of the ends. The pond's own surface is the datum, from which the others are measured.
func (t *settled) levelInputs(sure Sureness) []uncertain {
	var all []uncertain
	for _, l := range t.net.limbs {
		if l.path || l.end == nil || l.joint != nil || l.level == 0 {
			continue
		}
		how := sure.Levels[l.name].known()
		moved := l.sign() * levelMargin[how].of(l.level)
		all = append(all, uncertain{"height of the end, " + how.String(), l.name, nudge{level: map[int]float64{l.index: moved}}})
	}
	return all
}
