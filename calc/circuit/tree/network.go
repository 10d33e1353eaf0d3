package tree

import (
	"slices"

	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
)

// A Network is a circuit checked and ready to solve. It is safe for concurrent use.
//
// Inside, a branch is a limb, with a potential at its root that rises with the flow through it in the direction the water
// should take: the head at the root for a delivery, that head with its sign changed for an intake. So both sides of the
// pump are solved by the same few lines.
type Network struct {
	intake, trunk, delivery limb
	elements                []*element // by index
	limbs                   []*limb    // by index
	joints                  []*joint   // by index
}

// An element is a part.
type element struct {
	index   int
	name    string
	on      *limb
	run     *pipe.Run
	square  [2]float64 // head by flow squared, in m/(m³/s)², clean and due
	bore    unit.Length
	pump    *pumpElement
	joint   *joint // of a Parallel
	oneWay  bool
	checked bool // a check valve, whose flap wants a velocity
	part    Part
}

// A pumpElement is a pump as the solver sees it; see loss.
type pumpElement struct {
	pump.Pump
	first, last, crest float64 // m³/s
	top, end           float64 // m, head at crest and last
	gentle, steep      float64 // m per m³/s, slopes of what stands in for the curve where it is not known
}

// A limb is a stretch with an end of its own: a branch, or a path of a Parallel.
type limb struct {
	index  int
	name   string
	path   bool // of a Parallel
	intake bool
	parts  []*element
	end    End
	level  float64 // potential at the end, where that is fixed: height, or height with its sign changed
	joint  *joint  // of a Fork
	box    *limb   // outlet of a Box
	oneWay bool    // no water can come out of its end, or a check valve keeps it from running back
	above  *limb   // that it hangs on
}

// A joint is where limbs meet.
type joint struct {
	index  int
	limbs  []*limb
	oneWay bool // all of them are
}

// New checks a circuit and prepares it. Errors name intake, pump or delivery and the field below it.
func New(c Circuit) (*Network, error) {
	if err := check(c); err != nil {
		return nil, err
	}
	n := new(Network)
	n.addLimb(&n.intake, c.Intake, nil, true)
	n.trunk = limb{index: len(n.limbs), name: "pump", path: true}
	n.limbs = append(n.limbs, &n.trunk)
	n.addParts(&n.trunk, c.Pump)
	n.addLimb(&n.delivery, c.Delivery, nil, false)
	return n, nil
}

func (n *Network) addLimb(l *limb, b Branch, above *limb, intake bool) {
	*l = limb{index: len(n.limbs), name: b.Name, end: b.End, above: above, intake: intake}
	n.limbs = append(n.limbs, l)
	n.addParts(l, b.Parts)
	switch end := b.End.(type) {
	case Surface:
		l.level = l.sign() * end.Level.Metres()
	case Outlet:
		l.level = end.Level.Metres()
		l.oneWay = true
	case Box:
		l.level = end.Inlet.Metres()
		l.box = new(limb)
		n.addLimb(l.box, end.Outlet, l, false)
		l.oneWay = true
	case Fork:
		l.joint = n.newJoint(len(end))
		for i := range end {
			n.addLimb(l.joint.limbs[i], end[i], l, intake)
		}
		l.joint.close()
		l.oneWay = l.oneWay || l.joint.oneWay
	}
}

func (n *Network) addParts(l *limb, parts []Part) {
	for _, p := range parts {
		e := &element{index: len(n.elements), on: l, part: p}
		n.elements = append(n.elements, e)
		l.parts = append(l.parts, e)
		if ways, ok := p.(Parallel); ok {
			n.addPaths(e, ways)
		} else {
			e.set(p)
		}
		l.oneWay = l.oneWay || e.oneWay
	}
}

func (n *Network) addPaths(e *element, p Parallel) {
	e.joint = n.newJoint(len(p.Paths))
	for i, path := range p.Paths {
		l := e.joint.limbs[i]
		*l = limb{index: len(n.limbs), name: path.Name, path: true, above: e.on, intake: e.on.intake}
		n.limbs = append(n.limbs, l)
		n.addParts(l, path.Parts)
	}
	e.joint.close()
	e.oneWay = e.joint.oneWay
}

func (n *Network) newJoint(ways int) *joint {
	j := &joint{index: len(n.joints), limbs: make([]*limb, ways)}
	for i := range j.limbs {
		j.limbs[i] = new(limb)
	}
	n.joints = append(n.joints, j)
	return j
}

func (j *joint) close() {
	j.oneWay = true
	for _, l := range j.limbs {
		j.oneWay = j.oneWay && l.oneWay
	}
}

// sign turns a height into a potential and back.
func (l *limb) sign() float64 {
	if l.intake {
		return -1
	}
	return 1
}

// Branches are the names of all branches, in the order described.
func (n *Network) Branches() []string {
	var names []string
	for _, l := range n.limbs {
		if !l.path {
			names = append(names, l.name)
		}
	}
	return names
}

// Has says whether a part, a branch or a path is of that name.
func (n *Network) Has(name string) bool {
	return slices.ContainsFunc(n.elements, func(e *element) bool { return e.name == name }) ||
		slices.ContainsFunc(n.limbs, func(l *limb) bool { return l != &n.trunk && l.name == name })
}

// BranchesOf are the names of the branches that a branch parts into; none where it does not.
func (n *Network) BranchesOf(branch string) []string {
	var names []string
	for _, l := range n.limbs {
		if l.path || l.name != branch || l.joint == nil {
			continue
		}
		for _, next := range l.joint.limbs {
			names = append(names, next.name)
		}
	}
	return names
}
