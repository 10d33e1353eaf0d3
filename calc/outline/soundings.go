package outline

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/mesh"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Sounding is the depth of water at a place, in the coordinates of Edge.
type Sounding struct {
	At    Point
	Depth unit.Length
}

// Soundings are depths at places inside the edge, and at corners of it where the bank goes straight down. The floor is taken to
// be plane between neighbours.
type Soundings struct {
	EdgeDepth unit.Length // at the foot of the bank, 0 where the floor begins at the water's edge; a sounding at a corner goes before it
	Taken     []Sounding
}

// mostSoundings keeps the work, which grows with the square of their number, well under a tenth of a second.
const mostSoundings = 300

// floor is the floor as triangles with a depth at each corner.
type floor struct {
	*mesh.Mesh
	depth []float64 // m, of each point
	edge  int       // how many of the points are the outline
}

// bySoundings draws the floor through the soundings.
func (b Bay) bySoundings(t *working.Trail, s surface) (Measured, error) {
	f, err := b.Soundings.floor(Edge(b.Plan))
	if err != nil {
		return Measured{}, err
	}
	m := Measured{
		Volume: f.volume(t), levels: newCurve(f.layers()), Wetted: f.wetted(), VolumeError: f.volumeError(b.Plan, s.area),
		Method: fmt.Sprintf("%s, and the floor plane between %s and the edge, in %s.",
			s.how, plural(len(b.Soundings.Taken), "sounding"), plural(len(f.Triangles), "triangle")),
		Findings: []finding.Finding{f.widestGap()},
	}
	m.FloorArea = m.levels.AreaAt(m.Depth())
	const unresolved = 1e-3
	if !(m.VolumeError <= unresolved) {
		return Measured{}, input.Errors{{
			Field: "soundings", Problem: "the floor could not be divided into triangles", Change: "leave out points that lie very close together",
		}}
	}
	return m, nil
}

// floor checks the soundings and draws it. Places are from the first point of the edge, so that a map grid costs no digits.
func (s Soundings) floor(edge Polygon) (floor, error) {
	outline := edge.corners()
	if signedArea(outline) < 0 {
		slices.Reverse(outline)
	}
	var errs input.Errors
	if len(s.Taken) == 0 || len(s.Taken) > mostSoundings {
		errs.Add("soundings.taken", fmt.Sprintf("give 1 to %d", mostSoundings), "there are %d soundings", len(s.Taken))
		return floor{}, errs
	}
	if !(s.EdgeDepth >= 0 && s.EdgeDepth.Metres() <= longest) {
		errs.Add("soundings.edge_depth_m", "give the depth at the foot of the bank, or 0", "it cannot be %g m", s.EdgeDepth.Metres())
	}
	at := placed{apart: resolved * extent(outline), outline: outline, depth: slices.Repeat([]float64{s.EdgeDepth.Metres()}, len(outline))}
	for i, one := range s.Taken {
		field := fmt.Sprintf("soundings.taken[%d]", i)
		checkLength(&errs, field+".depth_m", "depth", one.Depth)
		p := r2.Vec{X: (one.At.X - edge.Points[0].X).Metres(), Y: (one.At.Y - edge.Points[0].Y).Metres()}
		if wrong, change := at.add(p, one.Depth.Metres()); wrong != "" {
			errs.Add(field, change, "sounding %d at (%g m, %g m) %s", i, one.At.X.Metres(), one.At.Y.Metres(), wrong)
		}
	}
	if len(errs) > 0 {
		return floor{}, errs
	}
	return floor{Mesh: mesh.New(outline, at.inside), depth: at.depth, edge: len(outline)}, nil
}

// placed are the soundings so far.
type placed struct {
	apart           float64
	outline, inside []r2.Vec
	depth           []float64 // of the outline's points, then of those inside
}

// add takes a sounding in, or says what is wrong with it.
func (p *placed) add(at r2.Vec, depth float64) (wrong, change string) {
	here := func(q r2.Vec) bool { return r2.Norm(r2.Sub(q, at)) <= p.apart }
	if corner := slices.IndexFunc(p.outline, here); corner >= 0 {
		p.depth[corner] = depth
		return "", ""
	}
	if !isInside(at, p.outline, p.apart) {
		return "does not lie in the water", "give it from the same origin as the outline, and inside it or at a corner of it"
	}
	if slices.ContainsFunc(p.inside, here) {
		return "is at the place of one before it", "give each place once"
	}
	p.inside, p.depth = append(p.inside, at), append(p.depth, depth)
	return "", ""
}

// isInside says whether p lies inside the outline and not on it. A ray to the right crosses the edge an odd number of times.
func isInside(p r2.Vec, outline []r2.Vec, apart float64) bool {
	inside := false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if !(fromSegment(p, a, b) > apart) {
			return false
		}
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			inside = !inside
		}
	}
	return inside
}

// widestGap says where the floor is known least.
func (f floor) widestGap() finding.Finding {
	var widest float64
	for _, t := range f.Triangles {
		for k := range 3 {
			p, q := t[k], t[(k+1)%3]
			if p >= f.edge || q >= f.edge {
				widest = max(widest, r2.Norm(r2.Sub(f.Points[p], f.Points[q])))
			}
		}
	}
	if widest == 0 {
		widest = extent(f.Points)
	}
	return finding.Finding{
		Code: "FLOOR_BETWEEN_SOUNDINGS_GUESSED", Severity: finding.Note, Subject: "floor",
		Sentence: fmt.Sprintf("The floor is taken to be plane between soundings and the edge, over up to %.2f m.", widest),
		Value:    finding.Of(widest, "m"),
		Change:   "Sound more places where the floor bends: at the edges of shelves and at the foot of slopes.",
		Source:   source.Definition,
	}
}
