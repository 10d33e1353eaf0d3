package stream

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/root"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Reach is a length of stream of one section and one slope.
type Reach struct {
	Length unit.Length
	Bed    unit.Length // width of the bed; 0 for a notch
	Side   unit.Ratio  // run of a bank by its rise; 0 is upright
	Slope  unit.Ratio  // fall by length
	N      Coefficients
	Stone  unit.Length // usual size of the stones of the bed; 0 for a smooth bed
}

// A Running is a reach as it runs. Low, Usual and High go with the roughness of the bed.
type Running struct {
	Depth    Band[unit.Length]
	Held     Band[unit.Volume] // water on the way: it is missing below while the stream runs and comes back when it stops
	Velocity unit.Velocity     // usual
	Froude   float64           // usual
}

// A Band is a number with its width.
type Band[Q ~float64] struct{ Low, Usual, High Q }

// Run finds how a flow runs in the reach: even flow by Manning's law. Errors name flow_l_per_h and the fields of Reach:
// length_m, bed_m, side, slope, n, stone_m.
func (r Reach) Run(t *working.Trail, q unit.Flow) (Running, []finding.Finding, error) {
	if err := r.check(q); err != nil {
		return Running{}, nil, err
	}
	var found []finding.Finding
	if y := r.depth(q, r.N.Usual); r.Stone > 0 && y < stonesDeep*r.Stone {
		found = append(found, shallowOver(y, r.Stone))
		r.N = shallow
	}
	var run Running
	run.Depth = Band[unit.Length]{r.depth(q, r.N.Low), r.depth(q, r.N.Usual), r.depth(q, r.N.High)}
	usual := r.section(t, run.Depth.Usual)
	run.Held = Band[unit.Volume]{
		r.held(r.section(nil, run.Depth.Low)), r.held(usual), r.held(r.section(nil, run.Depth.High)),
	}
	run.Velocity = Manning.Run(t, ManningInput{usual.Radius, r.Slope, r.N.Usual})
	run.Froude = Froude.Run(t, FroudeInput{run.Velocity, usual.Area, usual.Surface})
	if run.Froude > 0.8 {
		found = append(found, fast(run.Froude))
	}
	return run, found, nil
}

func (r Reach) section(t *working.Trail, y unit.Length) Section {
	return Trapezoid.Run(t, TrapezoidInput{r.Bed, r.Side, y})
}

func (r Reach) held(s Section) unit.Volume {
	return unit.CubicMetres(s.Area.SquareMetres() * r.Length.Metres())
}

// depth is the depth at which Manning's law carries the flow. The flow rises with depth without end.
func (r Reach) depth(q unit.Flow, n unit.ManningCoefficient) unit.Length {
	excess := func(y float64) float64 {
		s := Trapezoid.Eval(TrapezoidInput{r.Bed, r.Side, unit.Metres(y)})
		v := Manning.Eval(ManningInput{s.Radius, r.Slope, n})
		return s.Area.SquareMetres()*v.MetresPerSecond() - q.CubicMetresPerSecond()
	}
	y, _ := root.Find(excess, shallowest, enough(excess))
	return unit.Metres(y)
}

const shallowest = 1e-9 // m; below it there is no stream

// enough is a number at which a function that rises without end is above 0.
func enough(f func(float64) float64) float64 {
	x := 0.01
	for range 200 {
		if f(x) > 0 {
			break
		}
		x *= 2
	}
	return x
}

func (r Reach) check(q unit.Flow) error {
	var errs input.Errors
	within := func(field string, x, least, most float64, change string) {
		if !(x >= least && x <= most) {
			errs.Add(field, change, "%g is outside %g to %g", x, least, most)
		}
	}
	within("flow_l_per_h", q.LitresPerHour(), 1, 1e9, "give the flow of the stream")
	within("length_m", r.Length.Metres(), 0.01, 1e4, "give the length of the reach")
	within("bed_m", r.Bed.Metres(), 0, 100, "give the width of the bed")
	within("side", r.Side.Float(), 0, 20, "give the run of a bank by its rise, 0 where it is upright")
	within("slope", r.Slope.Float(), 1e-5, 1, "give the fall by the length; a reach steeper than 1 in 1 is a fall")
	within("stone_m", r.Stone.Metres(), 0, 2, "give the usual size of the stones, or leave it out")
	if n := r.N; !(n.Low >= 0.005 && n.Low <= n.Usual && n.Usual <= n.High && n.High <= 1) {
		errs.Add("n", "give Manning's n, least, usual and most, from 0.005 to 1", "n is %g, %g, %g", float64(n.Low), float64(n.Usual), float64(n.High))
	}
	if r.Bed == 0 && r.Side == 0 {
		errs.Add("bed_m", "give the width of the bed, or banks that slope", "a channel without width")
	}
	return errs.Err()
}

// stonesDeep is how many stones deep water must be for the tables of n to hold.
const stonesDeep = 4

func shallowOver(y, stone unit.Length) finding.Finding {
	return finding.Finding{
		Code: "SHALLOW_OVER_STONES", Severity: finding.Caution, Subject: "stream",
		Sentence: fmt.Sprintf("By the table the water would be %.0f mm deep over stones of %.0f mm, too shallow for it: "+
			"n of %.2f to %.2f is taken instead, and the depth is a range.", y.Millimetres(), stone.Millimetres(), float64(shallow.Low), float64(shallow.High)),
		Value: finding.Of(y.Millimetres(), "mm"), Limit: finding.Of(math.Round(stonesDeep*stone.Millimetres()), "mm"),
		Change: "measure the depth once the stream runs", Source: source.ShallowStones,
	}
}

func fast(froude float64) finding.Finding {
	f := finding.Finding{
		Code: "STREAM_NEAR_CRITICAL", Severity: finding.Note, Subject: "stream",
		Sentence: fmt.Sprintf("With a Froude number of %.1f the surface is wavy and the depth unsure.", froude),
		Value:    finding.Of(froude, "1"), Limit: finding.Of(1, "1"),
		Change: "give the banks some height to spare", Source: source.FroudeNumber,
	}
	if froude > 1.2 {
		f.Code = "STREAM_SHOOTS"
		f.Sentence = fmt.Sprintf("With a Froude number of %.1f the water shoots; it jumps to a greater depth where it meets a pool or a flatter reach.", froude)
	}
	return f
}
