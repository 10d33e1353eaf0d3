package tree

import (
	"fmt"
	"math"
	"slices"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// mostBranches keeps a circuit to what a garden can hold and a search can finish.
const mostBranches = 64

// A checker collects what is wrong with a circuit, under the names that its parts have in the public API.
type checker struct {
	errs     input.Errors
	names    map[string]string // field a branch's name was first used in
	branches int
}

func check(c Circuit) error {
	k := &checker{names: map[string]string{}}
	k.branch("intake", c.Intake, true)
	k.parts("pump", c.Pump)
	k.branch("delivery", c.Delivery, false)
	if !resists(c.Pump) && !c.Intake.resists() && !c.Delivery.resists() {
		k.errs.Add("", "give the hoses of the circuit, and its pump", "nothing in the circuit resists the water")
	}
	if k.branches > mostBranches {
		k.errs.Add("", "leave out what hardly matters", "the circuit has %d branches and paths, more than %d", k.branches, mostBranches)
	}
	return k.errs.Err()
}

func (k *checker) branch(path string, b Branch, intake bool) {
	k.branches++
	if b.Name == "" {
		k.errs.Add(path+".name", "give the branch a name", "the branch has no name")
	} else if first, used := k.names[b.Name]; used {
		k.errs.Add(path+".name", "give each branch a name of its own", "%q is the name of %s too", b.Name, first)
	} else {
		k.names[b.Name] = path
	}
	k.parts(path+".parts", b.Parts)
	k.end(path, b.End, intake)
}

func (k *checker) end(path string, e End, intake bool) {
	switch e := e.(type) {
	case Surface:
		k.level(path+".surface.level_m", e.Level)
		k.atLeast(path+".surface.mouth_m", e.Mouth.Metres(), 0, "give how deep the mouth of the pipe lies")
		k.atLeast(path+".surface.area_m2", e.Area.SquareMetres(), 0, "give the surface of the basin")
	case Outlet:
		k.level(path+".outlet.level_m", e.Level)
		if intake {
			k.errs.Add(path+".outlet", "let an intake end under a surface", "nothing can be drawn from an open outlet")
		}
	case Box:
		k.level(path+".box.inlet_m", e.Inlet)
		k.level(path+".box.rim_m", e.Rim)
		if intake {
			k.errs.Add(path+".box", "let an intake end under a surface, and give the box its own gravity circuit", "a filter box cannot end an intake")
		}
		k.branch(path+".box.outlet", e.Outlet, false)
		if !e.Outlet.resists() {
			k.errs.Add(path+".box.outlet.parts", "give the pipe that leads from the box", noResistance)
		}
	case Fork:
		if len(e) == 0 {
			k.errs.Add(path+".fork.branches", "give the branches that meet here", "the fork has no branches")
		}
		for i, b := range e {
			at := fmt.Sprintf("%s.fork.branches[%d]", path, i)
			k.branch(at, b, intake)
			if !b.resists() {
				k.errs.Add(at+".parts", "give what the water passes through here, a fitting at least", noResistance)
			}
		}
	default:
		k.errs.Add(path+".end", "say where the branch ends", "the branch has no end")
	}
}

func (k *checker) parts(path string, parts []Part) {
	for i, p := range parts {
		at := fmt.Sprintf("%s[%d]", path, i)
		switch p := p.(type) {
		case Hose:
			if p.Run == nil {
				k.errs.Add(at+".hose", "give the hose", "there is no hose")
			}
		case Device:
			k.above(at+".device.clean.flow_l_per_h", p.At.LitresPerHour(), "give the flow the loss was measured at")
			k.atLeast(at+".device.clean.head_m", p.Clean.Metres(), 0, "give the head lost when clean")
			k.atLeast(at+".device.due_head_m", p.Due.Metres(), 0, "give the head lost when due for cleaning")
		case Valve:
			k.valve(at+".valve", p.K, p.Bore, p.Kv)
		case Check:
			k.valve(at+".check_valve", p.K, p.Bore, 0)
		case Pump:
			if p.Pump.Curve == nil {
				k.errs.Add(at+".pump.pump.curve", "give the pump's curve", "the pump has no curve")
			} else {
				k.above(at+".pump.speed", p.Pump.Speed().Float(), "give the pump as measured, or at a speed above 0")
			}
		case Parallel:
			k.paths(at+".parallel", p.Paths)
		default:
			k.errs.Add(at, "give a part the engine knows", "there is no part here")
		}
	}
}

func (k *checker) paths(at string, paths []Path) {
	if len(paths) < 2 {
		k.errs.Add(at+".paths", "give two ways or more", "%d ways side by side", len(paths))
	}
	for i, p := range paths {
		k.branches++
		under := fmt.Sprintf("%s.paths[%d]", at, i)
		if !resists(p.Parts) {
			k.errs.Add(under+".parts", "give what the water passes through here, a fitting at least", noResistance)
		}
		k.parts(under+".parts", p.Parts)
	}
}

func (k *checker) valve(at string, K float64, bore unit.Length, kv unit.Flow) {
	if kv != 0 {
		k.above(at+".kv_m3_per_h", kv.CubicMetresPerHour(), "give the flow that takes 1 bar")
		return
	}
	k.above(at+".loss.bore_mm", bore.Millimetres(), "give the bore that the loss coefficient belongs to")
	k.atLeast(at+".loss.loss_coefficient", K, 0, "give a loss coefficient of 0 or more")
}

func (k *checker) level(field string, l unit.Length) {
	if h := l.Metres(); !(math.Abs(h) <= 1000) {
		k.errs.Add(field, "give a height above the pond's surface within 1000 m", "height is %g m", h)
	}
}

func (k *checker) atLeast(field string, v, least float64, change string) {
	if !(v >= least) || math.IsInf(v, 0) {
		k.errs.Add(field, change, "it is %g", v)
	}
}

func (k *checker) above(field string, v float64, change string) {
	if !(v > 0) || math.IsInf(v, 0) {
		k.errs.Add(field, change, "it is %g", v)
	}
}

const noResistance = "a way without any resistance takes all the water"

func (b Branch) resists() bool {
	_, forks := b.End.(Fork) // whose own branches are held to it
	return forks || resists(b.Parts)
}

// resists says whether water loses head to any of these parts.
func resists(parts []Part) bool {
	return slices.ContainsFunc(parts, func(p Part) bool {
		switch p := p.(type) {
		case Device:
			return p.Clean > 0
		case Valve:
			return p.K > 0 || p.Kv > 0
		case Check:
			return p.K > 0
		case Hose, Pump, Parallel:
			return true
		}
		return false
	})
}
