package wire

import (
	"fmt"

	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// deepest is how many forks, boxes and parallel parts may stand within one another.
const deepest = 6

// Circuit reads a circuit, and says what was assumed of it. Errors carry field paths from the circuit on.
func Circuit(c *pb.Circuit) (tree.Circuit, []finding.Finding, error) {
	r := newTreeReader()
	made := tree.Circuit{
		Intake:   r.branch("intake", c.GetIntake(), drawsIn, 0),
		Pump:     r.parts("pump", c.GetPump(), 0),
		Delivery: r.branch("delivery", c.GetDelivery(), givesOut, 0),
	}
	if r.fault != nil {
		return tree.Circuit{}, nil, r.fault
	}
	return made, r.findings(), r.errs.Err()
}

// circuitBranch reads a branch that takes the place of another. Errors carry field paths from it on.
func circuitBranch(b *pb.CircuitBranch, is side) (*tree.Branch, []finding.Finding, error) {
	if b == nil {
		return nil, nil, nil
	}
	r := newTreeReader()
	made := r.branch("", b, is, 0)
	if r.fault != nil {
		return nil, nil, r.fault
	}
	return &made, r.findings(), r.errs.Err()
}

// A side is which side of the pump a branch is on.
type side int

const (
	drawsIn side = iota + 1
	givesOut
)

// A treeReader gathers everything wrong with a tree while it is read.
type treeReader struct {
	errs      input.Errors
	fault     error                         // of another kind
	named     map[string]string             // field of the part that a name was first used for
	mouths    map[*pb.HoseRun][]pipe.Fitted // where water enters and leaves
	assumed   []string                      // hoses of which it is not known how water enters
	uncounted []string                      // branches without a hose at their mouth
}

func newTreeReader() *treeReader {
	return &treeReader{named: map[string]string{}, mouths: map[*pb.HoseRun][]pipe.Fitted{}}
}

func (r *treeReader) add(path string, err error) {
	if err != nil && !r.errs.AddUnder(path, err) {
		r.fault = err
	}
}

func (r *treeReader) branch(path string, b *pb.CircuitBranch, is side, depth int) tree.Branch {
	if depth > deepest {
		r.errs.Add(path, "describe the circuit with fewer forks within forks", "more than %d forks, boxes and parallel parts within one another", deepest)
		return tree.Branch{}
	}
	if b.GetFork() == nil {
		if is == drawsIn {
			r.enters(b.GetName(), b.GetParts())
		} else {
			r.leaves(b.GetName(), b.GetParts())
		}
	}
	made := tree.Branch{Name: b.GetName(), Parts: r.parts(within(path, "parts"), b.GetParts(), depth)}
	switch end := b.GetEnd().(type) {
	case *pb.CircuitBranch_Surface:
		s := end.Surface
		made.End = tree.Surface{
			Level: unit.Metres(s.GetLevelM()), Mouth: unit.Metres(s.GetMouthM()), Area: unit.SquareMetres(s.GetAreaM2()), Vent: s.GetVented(),
		}
	case *pb.CircuitBranch_Outlet:
		made.End = tree.Outlet{Level: unit.Metres(end.Outlet.GetLevelM())}
	case *pb.CircuitBranch_Box:
		x := end.Box
		r.enters(x.GetOutlet().GetName(), x.GetOutlet().GetParts())
		made.End = tree.Box{
			Inlet: unit.Metres(x.GetInletM()), Rim: unit.Metres(x.GetRimM()), Area: unit.SquareMetres(x.GetAreaM2()),
			Outlet: r.branch(within(path, "box.outlet"), x.GetOutlet(), givesOut, depth+1),
		}
	case *pb.CircuitBranch_Fork:
		var fork tree.Fork
		for i, branch := range end.Fork.GetBranches() {
			fork = append(fork, r.branch(within(path, fmt.Sprintf("fork.branches[%d]", i)), branch, is, depth+1))
		}
		made.End = fork
	}
	return made
}

func (r *treeReader) parts(path string, parts []*pb.CircuitPart, depth int) []tree.Part {
	var made []tree.Part
	for i, p := range parts {
		if part := r.part(fmt.Sprintf("%s[%d]", path, i), p, depth); part != nil {
			made = append(made, part)
		}
	}
	return made
}

// name notes the name of a part, which no other may have.
func (r *treeReader) name(path, name string) {
	if first, used := r.named[name]; used {
		r.errs.Add(within(path, "name"), "give each part a name of its own", "%q is the name of %s too", name, first)
		return
	}
	r.named[name] = path
}

func (r *treeReader) part(path string, p *pb.CircuitPart, depth int) tree.Part {
	r.name(path, p.GetName())
	switch part := p.GetPart().(type) {
	case *pb.CircuitPart_Hose:
		run, err := Run(part.Hose, r.mouths[part.Hose]...)
		r.add(within(path, "hose"), err)
		if err != nil {
			return nil
		}
		return tree.Hose{Name: p.GetName(), Run: run}
	case *pb.CircuitPart_Device:
		d := Device(p.GetName(), part.Device.GetClean())
		return tree.Device{Name: d.Name, At: d.At, Clean: d.Loss, Due: unit.MetresOfWater(part.Device.GetDueHeadM())}
	case *pb.CircuitPart_Valve:
		v := part.Valve
		return tree.Valve{
			Name: p.GetName(), Kv: unit.CubicMetresPerHour(v.GetKvM3PerH()),
			Bore: unit.Millimetres(v.GetLoss().GetBoreMm()), K: v.GetLoss().GetLossCoefficient(),
		}
	case *pb.CircuitPart_CheckValve:
		loss := part.CheckValve.GetLoss()
		return tree.Check{Name: p.GetName(), Bore: unit.Millimetres(loss.GetBoreMm()), K: loss.GetLossCoefficient()}
	case *pb.CircuitPart_Pump:
		return r.pump(within(path, "pump"), p.GetName(), part.Pump)
	case *pb.CircuitPart_Parallel:
		return r.parallel(within(path, "parallel"), part.Parallel, depth+1)
	default:
		return nil // refused by the request rules before it comes here
	}
}

func (r *treeReader) parallel(path string, p *pb.ParallelPart, depth int) tree.Part {
	if depth > deepest {
		r.errs.Add(path, "describe the circuit with fewer forks within forks", "more than %d forks, boxes and parallel parts within one another", deepest)
		return nil
	}
	var made tree.Parallel
	for i, way := range p.GetPaths() {
		at := within(path, fmt.Sprintf("paths[%d].parts", i))
		made.Paths = append(made.Paths, tree.Path{Name: way.GetName(), Parts: r.parts(at, way.GetParts(), depth)})
	}
	return made
}

func (r *treeReader) pump(path, name string, p *pb.PumpPart) tree.Part {
	curve, err := Curve(p.GetPump())
	r.add(within(path, "pump"), err)
	if err != nil {
		return nil
	}
	running := pump.AsMeasured(curve)
	if p.Speed != nil {
		running = running.AtSpeed(unit.Ratio(p.GetSpeed()))
	}
	made := tree.Pump{Name: name, Pump: running, Check: p.GetChecked(), WetRotor: p.GetWetRotor()}
	if s := p.GetSuction(); s != nil {
		made.Suction = r.suction(within(path, "suction"), s)
	}
	return made
}

func (r *treeReader) suction(path string, s *pb.SuctionLift) *pump.Suction {
	air := water.AltitudePressure.Eval(water.AltitudeInput{Altitude: unit.Metres(s.GetAltitudeM())})
	made := &pump.Suction{Height: unit.Metres(s.GetHeightM()), Air: air}
	if len(s.GetRequired()) == 0 {
		return made
	}
	points := make([]pump.RequiredPoint, len(s.GetRequired()))
	for i, p := range s.GetRequired() {
		points[i] = pump.RequiredPoint{Flow: unit.LitresPerHour(p.GetFlowLPerH()), NPSH: unit.MetresOfWater(p.GetNpshM())}
	}
	required, err := pump.NewRequirement(points)
	r.add(path, err)
	made.Required = required
	return made
}

func within(path, field string) string {
	if path == "" {
		return field
	}
	return path + "." + field
}
