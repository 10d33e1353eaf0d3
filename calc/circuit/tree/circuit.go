// Package tree solves circuits with branches: intakes that share a pump, paths round a lamp chamber, outlets at different
// heights, a filter box open to the air.
//
// Heights are above one datum, best the pond's surface, so that the lift of a branch is the height of its end. How deep
// a pump stands does not matter, but for suction.
package tree

import (
	"slices"

	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
)

// A Circuit is all the water passes through: an intake, one pump or more, a delivery. Without a pump it is a gravity
// circuit, which runs from a higher surface to a lower.
type Circuit struct {
	Intake   Branch // from its ends to the pump
	Pump     []Part // usually one Pump; several work in series, a Parallel side by side
	Delivery Branch // from the pump to its ends
}

// A Branch is a stretch of the circuit with an end of its own.
type Branch struct {
	Name  string // unique in the circuit: "skimmer", "fall"
	Parts []Part // in the order the water takes them, as it should run
	End   End    // away from the pump
}

// An End is what lies at the end of a branch: a Surface, an Outlet, a Box or a Fork.
type End interface{ end() }

// A Surface is open water that a branch draws from or ends under. Water can run out of it as well as in.
type Surface struct {
	Level unit.Length // of the water above the datum
	Mouth unit.Length // how deep the mouth of the pipe lies under it, for what is lost or runs back when the pump stands
	Area  unit.Area   // of a basin that is not the pond; 0 for the pond
	Vent  bool        // air gets in when the pump stands, so that no siphon forms
}

// An Outlet lets water go in the open air. None can run back through it.
type Outlet struct {
	Level unit.Length // of the opening above the datum
}

// A Box is a chamber open to the air, such as a gravity-fed filter. The pressure of the pump ends at its inlet; from
// there its water takes Outlet by the fall there is, standing as high in the box as that asks for.
type Box struct {
	Inlet  unit.Length // height of the inlet above the datum
	Rim    unit.Length // height it overflows at
	Area   unit.Area   // of its water, for what runs out when the pump stands; 0 where not known
	Outlet Branch      // by gravity; its ends are lower than the rim
}

// A Fork is where a branch parts into others. In an intake its branches come together before the branch's own parts, in a
// delivery they part after them.
type Fork []Branch

func (Surface) end() {}
func (Outlet) end()  {}
func (Box) end()     {}
func (Fork) end()    {}

// A Part is anything water passes through: a Hose, a Device, a Valve, a Check, a Pump or a Parallel.
type Part interface{ part() }

// A Hose is a run of hose or pipe with its fittings.
type Hose struct {
	Name string
	Run  *pipe.Run
}

// HoldsBack says that a check or foot valve among the fittings keeps water from running back.
func (h Hose) HoldsBack() bool {
	return slices.ContainsFunc(h.Run.Spec().Fittings, func(f pipe.Fitted) bool { return f.Kind.HoldsBack() })
}

// A Device is anything whose loss was measured at one flow: a filter under pressure, a lamp chamber.
type Device struct {
	Name  string
	At    unit.Flow // the flow it was measured at
	Clean unit.Head // the head lost there
	Due   unit.Head // the head lost there when it is due for cleaning; 0 where cleaning makes no difference
}

// A Valve is a resistance that can be set, given by a loss coefficient on a bore, or by its Kv.
type Valve struct {
	Name string
	Bore unit.Length // that K belongs to
	K    float64
	Kv   unit.Flow // the flow that takes 1 bar; 0 where K is given
}

// A Check keeps water from running back.
type Check struct {
	Name string
	Bore unit.Length
	K    float64 // wide open; a lower bound where water runs too slowly to lift the flap
}

// A Pump is a pump at some speed.
type Pump struct {
	Name     string
	Pump     pump.Pump
	Check    bool // a check valve behind it keeps water from running back
	WetRotor bool
	Suction  *pump.Suction // of a pump that stands dry; nil under water
}

// A Parallel is a stretch where the water has more than one way: a lamp chamber with a bypass, pumps side by side.
type Parallel struct{ Paths []Path }

// A Path is one way through a Parallel.
type Path struct {
	Name  string
	Parts []Part
}

func (Hose) part()     {}
func (Device) part()   {}
func (Valve) part()    {}
func (Check) part()    {}
func (Pump) part()     {}
func (Parallel) part() {}
