package circulation

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// course follows the water of one position.
func (p pond) course(t *working.Trail, pos Position) Course {
	intake, _ := p.inWater(pos.Intake)
	c := Course{Way: unit.Length(math.Inf(1)), Still: p.Levels().VolumeBelow(pos.Intake.Depth)}
	var along []r2.Vec
	for _, back := range pos.Returns {
		from, _ := p.inWater(back)
		way := p.shortest(from, intake)
		along = append(along, spaced(way, p.length.Metres()/40)...)
		c.Way = min(c.Way, measure(t, way))
	}
	c.Share = ShareOfLength.Run(t, ShareInput{Way: c.Way, Length: p.length})
	c.Farthest, c.DeadEnds = p.passedBy(along)
	c.Findings = p.findings(pos, c)
	return c
}

func measure(t *working.Trail, way []r2.Vec) (d unit.Length) {
	for i, q := range way[1:] {
		d = Leg.Run(t, LegInput{
			Before: d, X1: unit.Metres(way[i].X), Y1: unit.Metres(way[i].Y), X2: unit.Metres(q.X), Y2: unit.Metres(q.Y),
		})
	}
	return d
}

// spaced are places along a line of points, no further apart than that.
func spaced(line []r2.Vec, apart float64) []r2.Vec {
	out := line[:1:1]
	for i, q := range line[1:] {
		leg := r2.Sub(q, line[i])
		n := max(1, math.Ceil(r2.Norm(leg)/apart))
		for k := 1.0; k <= n; k++ {
			out = append(out, r2.Add(line[i], r2.Scale(k/n, leg)))
		}
	}
	return out
}

// dead is how far from the ways a bank lies dead, against the pond's mean width. Water that turns a corner leaves the outside of
// it a width and a half away, and still stirs it.
const dead = unit.Length(1.5)

// passedBy looks along the bank for how far the water's ways are, and for the outermost place of each stretch of bank that lies
// dead.
func (p pond) passedBy(along []r2.Vec) (farthest unit.Length, ends []outline.Point) {
	bank := p.ways.outline
	bank = spaced(append(bank[:len(bank):len(bank)], bank[0]), p.length.Metres()/60)
	bank = bank[:len(bank)-1]
	from := p.fromWays(along, bank)
	start := 0 // a place near the ways, so that no stretch is cut in two
	for i, d := range from {
		if d < from[start] {
			start = i
		}
		farthest = max(farthest, unit.Metres(d))
	}
	var end int
	var most float64
	for k := range bank {
		i := (start + k) % len(bank)
		if d := from[i]; d > (dead * p.width).Metres() {
			if d > most {
				end, most = i, d
			}
			continue
		}
		if most > 0 {
			ends, most = append(ends, p.point(bank[end])), 0
		}
	}
	if most > 0 {
		ends = append(ends, p.point(bank[end]))
	}
	return farthest, ends
}

// fromWays are the shortest distances of places from those along the ways.
func (p pond) fromWays(along, places []r2.Vec) []float64 {
	corners := make([]float64, len(p.corners)) // of the corners from the ways
	for i, c := range p.corners {
		corners[i] = math.Inf(1)
		for _, a := range along {
			if d := r2.Norm(r2.Sub(a, c)); d < corners[i] && p.sees(a, c) {
				corners[i] = d
			}
		}
	}
	corners = p.onward(corners)
	out := make([]float64, len(places))
	for k, q := range places {
		out[k] = math.Inf(1)
		for _, a := range along {
			if d := r2.Norm(r2.Sub(a, q)); d < out[k] && p.sees(a, q) {
				out[k] = d
			}
		}
		for i, c := range p.corners {
			if d := corners[i] + r2.Norm(r2.Sub(c, q)); d < out[k] && p.sees(c, q) {
				out[k] = d
			}
		}
	}
	return out
}

// half is the share of the pond's length below which the water goes short, and the share of its depth above which an intake
// leaves the deep water alone.
const half = unit.Ratio(0.5)

func (p pond) findings(pos Position, c Course) []finding.Finding {
	var found []finding.Finding
	deep := pos.Intake.Depth > unit.Length(half)*p.Depth()
	switch {
	case pos.Winter && deep:
		found = append(found, finding.Finding{
			Code: "DEEP_WATER_STIRRED", Severity: finding.Caution, Subject: pos.Name,
			Sentence: fmt.Sprintf("The intake at %.2f m draws from the deep water where fish rest in winter; %s L lie still below it.",
				pos.Intake.Depth.Metres(), finding.Whole(c.Still.Litres())),
			Value: finding.Of(pos.Intake.Depth.Metres(), "m"), Limit: finding.Of((unit.Length(half) * p.Depth()).Metres(), "m"),
			Change: "Raise the pump for the winter and set it beside the return.",
			Source: source.Practice,
		})
	case !pos.Winter && !deep:
		found = append(found, finding.Finding{
			Code: "INTAKE_SHALLOW", Severity: finding.Note, Subject: pos.Name,
			Sentence: fmt.Sprintf("The intake at %.2f m leaves the %s L below it, and the dirt that sinks there, behind.",
				pos.Intake.Depth.Metres(), finding.Whole(c.Still.Litres())),
			Value: finding.Of(pos.Intake.Depth.Metres(), "m"), Limit: finding.Of((unit.Length(half) * p.Depth()).Metres(), "m"),
			Change: "Set it near the deepest place in summer.",
			Source: source.Practice,
		})
	}
	if pos.Winter {
		return append(found, p.winterWay(pos, c)...)
	}
	if c.Share < half {
		found = append(found, finding.Finding{
			Code: "SHORT_CIRCUIT", Severity: finding.Caution, Subject: pos.Name,
			Sentence: fmt.Sprintf("From return to intake the water goes %.1f m, %.0f %% of the pond's length of %.1f m, and what is cleaned comes straight back.",
				c.Way.Metres(), c.Share.Percent(), p.length.Metres()),
			Value: finding.Of(c.Share.Percent(), "%"), Limit: finding.Of(half.Percent(), "%"),
			Change: "Set intake and return at opposite ends.",
			Source: source.Choice,
		})
	}
	return append(found, p.deadEnds(pos, c)...)
}

func (p pond) winterWay(pos Position, c Course) []finding.Finding {
	if c.Share <= half {
		return nil
	}
	return []finding.Finding{{
		Code: "WINTER_WAY_LONG", Severity: finding.Note, Subject: pos.Name,
		Sentence: fmt.Sprintf("The water goes %.0f %% of the pond's length in winter and stirs most of it.", c.Share.Percent()),
		Value:    finding.Of(c.Share.Percent(), "%"), Limit: finding.Of(half.Percent(), "%"),
		Change: "Move the pump to the shallow end beside the return, so that deep water lies still and keeps its warmth.",
		Source: source.Practice,
	}}
}

func (p pond) deadEnds(pos Position, c Course) []finding.Finding {
	if len(c.DeadEnds) == 0 {
		return nil
	}
	places := ""
	for i, e := range c.DeadEnds {
		if i > 0 {
			places += ", "
		}
		places += fmt.Sprintf("(%.1f m, %.1f m)", e.X.Metres(), e.Y.Metres())
	}
	return []finding.Finding{{
		Code: "DEAD_END", Severity: finding.Caution, Subject: pos.Name,
		Sentence: fmt.Sprintf("The water passes by the bank at %s, up to %.1f m from its way, where the pond is %.1f m wide on average.",
			places, c.Farthest.Metres(), p.width.Metres()),
		Value: finding.Of(c.Farthest.Metres(), "m"), Limit: finding.Of((dead * p.width).Metres(), "m"),
		Change: "Lead a second return there, or move the intake.",
		Source: source.Choice,
	}}
}
